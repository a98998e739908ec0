package session

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"potlife/kinetics/warning"
)

// A Refusal is an event that cannot have happened as it was told.
type Refusal struct {
	Problem, Mend string
	Warnings      []warning.Warning // of the session that refuses
}

func (r *Refusal) Error() string { return r.Problem + "\n   " + r.Mend }

func refuse(mend, format string, args ...any) *Refusal {
	return &Refusal{Problem: fmt.Sprintf(format, args...), Mend: mend}
}

// A Day is where the winding stands after the events of a journal, in the order
// in which they happened.
type Day struct {
	Started  time.Time
	Layers   int // of the job
	Pots     []StandingPot
	Filled   bool // there is resin in the bath
	InHand   int  // layer being wound, 0: none
	LastDone int
	GivenUp  int // layer that was in hand when the session was finished, 0: none
	Paused   bool
	Finished bool
	Weighed  bool // what is in the bath was weighed as left-over, and nothing was poured or wound since
	// ResumedBy is the seq of the last layer event that shows a resume to have
	// been forgotten, 0: none.
	ResumedBy int
}

// ResinLeft tells whether a pot or the bath holds resin that nobody has said to be weighed or gone.
func (d Day) ResinLeft() bool { return len(d.Pots) > 0 || d.Filled && !d.Weighed }

// Resin tells whether there is any: weighing is no removal.
func (d Day) Resin() bool { return len(d.Pots) > 0 || d.Filled }

// A StandingPot is a pot that was mixed, and neither poured nor taken away.
type StandingPot struct {
	Seq     int
	Number  int
	MixedAt time.Time
}

// TakenBack tells of the events that were, by number, which undo did it. A plan goes with the
// event that made it necessary.
func TakenBack(all []Event) map[int]int {
	by := map[int]int{}
	for _, e := range all {
		if e.Kind == Undo {
			by[e.Of] = e.Seq
		}
	}
	for _, e := range all {
		if e.Kind == Planned && e.Plan != nil && by[e.Seq] == 0 && by[e.Plan.Broke] > 0 {
			by[e.Seq] = by[e.Plan.Broke]
		}
	}
	return by
}

// Active returns the events that were not taken back, in the order in which they
// happened; those of the same second stay as they were logged.
func Active(all []Event) []Event {
	undone := TakenBack(all)
	list := slices.DeleteFunc(slices.Clone(all), func(e Event) bool { return e.Kind == Undo || undone[e.Seq] > 0 })
	slices.SortStableFunc(list, func(a, b Event) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Seq, b.Seq)) })
	return list
}

// Through plays the events of a journal and returns the day, or the refusal of the
// first event that cannot have happened.
func Through(all []Event) (Day, error) {
	d, _, err := through(all)
	return d, err
}

// through is Through with the event that is refused.
func through(all []Event) (Day, Event, error) {
	var d Day
	for _, e := range Active(all) {
		if r := d.take(e); r != nil {
			return d, e, r
		}
	}
	return d, Event{}, nil
}

// played is Through for what a journal holds: what is refused of it is a *Damaged without a path.
func played(all []Event) (Day, error) {
	day, e, err := through(all)
	if refusal, is := errors.AsType[*Refusal](err); is {
		return day, &Damaged{Line: e.Seq, Problem: absurdly + refusal.Problem}
	}
	return day, err
}

// EachDay plays events that are active and in order, and lets see the day after each. After one that
// cannot have happened it stays as it is.
func EachDay(active []Event, see func(i int, day Day)) {
	var d Day
	refused := false
	for i, e := range active {
		if !refused {
			d.Pots = slices.Clone(d.Pots) // whoever saw it may have kept it
			refused = d.take(e) != nil
		}
		see(i, d)
	}
}

const clockOnly = "15:04"

// take lets one event happen.
func (d *Day) take(e Event) *Refusal {
	if e.Kind == Started {
		d.Started, d.Layers = e.At, e.Layers
		return nil
	}
	if d.Started.IsZero() {
		return refuse("start the session before, or give --at a later time", "%s at %s lies before the start of the session", e.Kind, e.At.Format("2006-01-02 15:04"))
	}
	// A plan is made, not wound by: one that log made from a later event must not keep the crew
	// from logging a finish before it.
	if d.Finished && !e.Kind.afterFinish() {
		return afterFinish(e)
	}
	switch e.Kind {
	case Mixed:
		d.Pots = append(d.Pots, StandingPot{e.Seq, e.PotNumber, e.At})
	case Poured:
		return d.pour(e)
	case Begin:
		return d.begin(e)
	case Done:
		return d.done(e)
	case Pause, Resume:
		return d.pause(e)
	case BathTemp, FlowCup, Viscosity, Changed:
		return d.bath(e)
	case LeftOver:
		d.Weighed = d.InHand == 0 // else the tow goes on to take from it
	case Spread, ThrownOut, Cured:
		return d.remove(e)
	case Finish:
		// Whoever ends a day within a layer has given it up: a done would be a lie.
		d.GivenUp, d.InHand, d.Finished = d.InHand, 0, true
	}
	return nil
}

// afterFinish tells whether an event can come after the finish: what is said of the day, and
// what becomes of the resin that is left.
func (k Kind) afterFinish() bool {
	return k == Note || k == Weighed || k == Planned || k == LeftOver || k == Changed || k.Removes()
}

func afterFinish(e Event) *Refusal {
	return refuse("undo the finish first, or log it before it with --at", "%s at %s comes after the session was finished", e.Kind, e.At.Format(clockOnly))
}

func (d *Day) pour(e Event) *Refusal {
	if r := d.takePot(e); r != nil {
		return r
	}
	d.Filled, d.Weighed = true, false
	return nil
}

// takePot takes the pot of an event from those that stand mixed.
func (d *Day) takePot(e Event) *Refusal {
	i := slices.IndexFunc(d.Pots, func(p StandingPot) bool { return p.Seq == e.Pot })
	if i < 0 && len(d.Pots) > 0 {
		name := fmt.Sprintf("e%d", e.Pot)
		if e.PotNumber > 0 {
			name = fmt.Sprintf("pot %d", e.PotNumber)
		}
		return refuse("take the number of one that stands mixed: "+standing(d.Pots), "%s is no pot that stands mixed at %s", name, e.At.Format(clockOnly))
	}
	if i < 0 {
		return refuse("log mixed first, with --at for when its mixing began", "no pot was mixed by %s that is not poured yet", e.At.Format(clockOnly))
	}
	d.Pots = slices.Delete(slices.Clone(d.Pots), i, i+1)
	return nil
}

// remove takes a pot or the bath away. Whoever has a hot bath in hand does not log a pause
// first: without a bath the machine stands.
func (d *Day) remove(e Event) *Refusal {
	if !e.Bath {
		return d.takePot(e)
	}
	if !d.Filled {
		return refuse("name a pot, if it is one", "%s at %s with no resin in the bath", e.Kind, e.At.Format(clockOnly))
	}
	d.Filled = false
	d.Paused = d.Paused || d.InHand > 0
	return nil
}

// standing names pots by the numbers that poured takes.
func standing(pots []StandingPot) string {
	names := make([]string, len(pots))
	for i, p := range pots {
		names[i] = fmt.Sprintf("pot %d, mixed at %s", p.Number, p.MixedAt.Format(clockOnly))
	}
	return strings.Join(names, "; ")
}

func (d *Day) begin(e Event) *Refusal {
	switch {
	case !d.Filled:
		return refuse("log poured first", "layer %d begins at %s with no resin in the bath", e.Layer, e.At.Format(clockOnly))
	case d.InHand > 0:
		return refuse(fmt.Sprintf("log done for layer %d first", d.InHand), "layer %d begins at %s while layer %d is in hand", e.Layer, e.At.Format(clockOnly), d.InHand)
	case e.Layer <= d.LastDone:
		return refuse(fmt.Sprintf("the next is layer %d", d.LastDone+1), "layer %d is done already", e.Layer)
	case e.Layer > d.Layers:
		return refuse("log finish when the part is wound", "the job has %d layers, not %d", d.Layers, e.Layer)
	case e.Layer > d.LastDone+1:
		return refuse(fmt.Sprintf("if layer %d was wound, log its begin and done with --at; if it is left out, take it out of the job, log finish, start again with --at and log the day anew", d.LastDone+1),
			"layer %d begins and layer %d is not done", e.Layer, d.LastDone+1)
	}
	d.InHand, d.Weighed = e.Layer, false
	d.runs(e)
	return nil
}

func (d *Day) done(e Event) *Refusal {
	switch {
	case d.InHand > 0 && !d.Filled:
		return refuse("log poured first, with --at for when it was", "layer %d is done at %s with no resin in the bath", e.Layer, e.At.Format(clockOnly))
	case d.InHand == 0:
		return refuse("log begin first, with --at for when it began", "no layer is in hand at %s", e.At.Format(clockOnly))
	case d.InHand != e.Layer:
		return refuse(fmt.Sprintf("log done %d, or undo its begin", d.InHand), "layer %d is in hand at %s, not layer %d", d.InHand, e.At.Format(clockOnly), e.Layer)
	}
	d.InHand, d.LastDone, d.Weighed = 0, e.Layer, false
	d.runs(e)
	return nil
}

// runs notes that the machine ran at a layer's begin or end: a resume that was not
// logged is taken as just before. It is no refusal, since a pause and its resume
// that are told late come one after the other.
func (d *Day) runs(e Event) {
	if d.Paused {
		d.Paused, d.ResumedBy = false, e.Seq
	}
}

func (d *Day) pause(e Event) *Refusal {
	if (e.Kind == Pause) == d.Paused {
		if d.Paused {
			return refuse("log resume first", "the machine stands already at %s", e.At.Format(clockOnly))
		}
		return refuse("log pause first, with --at for when it stopped", "the machine runs at %s: there is nothing to resume", e.At.Format(clockOnly))
	}
	d.Paused = e.Kind == Pause
	return nil
}

func (d *Day) bath(e Event) *Refusal {
	if !d.Filled {
		mend := "log poured first"
		if e.Kind == Changed {
			mend = "there is nothing to log if it was taken out before; else log poured first"
		}
		return refuse(mend, "%s at %s with no resin in the bath", e.Kind, e.At.Format(clockOnly))
	}
	if e.Kind == Changed {
		if d.InHand > 0 && !d.Paused {
			return refuse("log pause first, with --at for when the machine stopped", "the bath is changed at %s while layer %d is being wound", e.At.Format(clockOnly), d.InHand)
		}
		d.Filled = false
	}
	return nil
}

// farthestAhead is what clocks of two machines may differ by.
const farthestAhead = time.Minute

// complete fills in what an event leaves open from the events so far, and returns
// the refusal where it cannot have happened: the whole day is played again with
// it, since it may lie before others.
func complete(all []Event, e Event) (Event, error) {
	e.PotNumber = 0
	e, err := placed(all, e)
	if err != nil {
		return e, err
	}
	before, err := Through(until(all, e.At))
	if err != nil {
		return e, err
	}
	switch {
	case e.Kind == Poured:
		if e.Pot == 0 && len(before.Pots) > 0 {
			e.Pot = before.Pots[0].Seq // the oldest goes first
		}
		mixed, _ := event(all, e.Pot)
		e.PotNumber = mixed.PotNumber
	case e.Kind.Removes():
		if e, err = whichResin(before, all, e); err != nil {
			return e, err
		}
	case e.Kind == Begin && e.Layer == 0:
		e.Layer = before.LastDone + 1
	case e.Kind == Done && e.Layer == 0:
		e.Layer = before.InHand
	case e.Kind == Undo:
		return undo(all, e)
	case e.Kind == Planned && before.Finished:
		return e, afterFinish(e) // a finish may be logged before a plan, no plan after a finish
	case e.Kind == LeftOver && e.Grams != nil:
		if r := leftOver(until(all, e.At), e); r != nil {
			return e, r
		}
	}
	e.Seq = len(all) + 1
	_, err = Through(append(slices.Clone(all), e))
	e.Seq, e.PotNumber = 0, 0 // given as the journal is written and read
	return e, err
}

// whichResin fills in what is spread or taken away where nothing is named: it must be the only
// resin that there is.
func whichResin(before Day, all []Event, e Event) (Event, error) {
	if e.Pot == 0 && !e.Bath {
		switch {
		case before.Filled && len(before.Pots) == 0:
			e.Bath = true
		case !before.Filled && len(before.Pots) == 1:
			e.Pot = before.Pots[0].Seq
		case before.Filled || len(before.Pots) > 0:
			return e, refuse(fmt.Sprintf("write potlife log %s bath, or the number of the pot: %s", e.Kind, standing(before.Pots)), "%s does not say which", e.Kind)
		default:
			return e, refuse("log what was mixed and poured first, with --at", "%s at %s, and no resin stands mixed or is in the bath", e.Kind, e.At.Format(clockOnly))
		}
	}
	if !e.Bath {
		mixed, _ := event(all, e.Pot)
		e.PotNumber = mixed.PotNumber
	}
	return e, nil
}

// leftOver refuses more than all that was mixed. It is asked of what is about to be logged
// and not of a day: a journal that has such a line already must still open.
func leftOver(before []Event, e Event) *Refusal {
	mixed := 0.0
	for _, m := range Active(before) {
		if m.Kind == Mixed {
			mixed += m.MassG + m.ResinG + m.HardenerG
		}
	}
	if *e.Grams <= mixed*overfull { // scales differ
		return nil
	}
	return refuse("weigh it again without its tray, or log the pots that are missing first", "%.4g g are left and only %.4g g were mixed by %s", *e.Grams, mixed, e.At.Format(clockOnly))
}

// longestDay is how long after the last event, by the clock that is ahead, something can be logged
// by a clock that is behind it (our choice): a slip in the hour or the day is refused still.
const longestDay = 12 * time.Hour

// placed puts an event that is said to happen now after those that were logged before it, and
// refuses one that has not come yet. Where this clock and that of the last event are not the same,
// nobody knows when now is.
func placed(all []Event, e Event) (Event, error) {
	clocks, differ := Differ(all, e.Logged)
	isNow := e.At.Equal(e.Logged) || e.At.Equal(e.Logged.Truncate(time.Second))
	latest := e.Logged.Add(farthestAhead)
	switch {
	case differ && isNow && e.Kind != Undo:
		return e, clocks.Refusal()
	case differ:
		latest = clocks.Last.Add(longestDay)
	case isNow && clocks.Last.After(e.At):
		e.At = clocks.Last.In(e.At.Location()) // clocks of two machines may differ by as much
	}
	if silence := e.At.Sub(clocks.Last); len(all) > 0 && silence > LongestSilence && !e.Kind.afterFinish() && e.Kind != Finish && e.Kind != Undo {
		return e, refuse("for another day write potlife log finish and start a new session; if it was then, give --at with its day",
			"%s on %s is %.0f days after the last event of this session, on %s", e.Kind, e.At.Format(time.DateOnly), silence.Hours()/24, clocks.Last.Format(time.DateOnly))
	}
	if !e.At.After(latest) {
		return e, nil
	}
	layout := clockOnly
	if !sameDay(e.At, e.Logged.In(e.At.Location())) {
		layout = "2006-01-02 15:04"
	}
	mend := "give --at a time that has passed"
	if yesterday := e.At.AddDate(0, 0, -1); !yesterday.After(latest) {
		mend += "; for yesterday write " + yesterday.Format("2006-01-02 15:04")
	}
	return e, refuse(mend, "%s has not come yet: this machine's clock says %s", e.At.Format(layout), e.Logged.In(e.At.Location()).Format(layout))
}

func sameDay(a, b time.Time) bool { return a.Format(time.DateOnly) == b.Format(time.DateOnly) }

// until returns the events that happened by the time given, with all that was
// taken back.
func until(all []Event, at time.Time) []Event {
	return slices.DeleteFunc(slices.Clone(all), func(e Event) bool { return e.Kind != Undo && e.At.After(at) })
}

// undo settles what is taken back: the event named, or the last that was logged.
func undo(all []Event, e Event) (Event, error) {
	active := Active(all)
	if e.Of == 0 {
		for _, a := range active {
			if a.Own() {
				e.Of = max(e.Of, a.Seq)
			}
		}
	}
	i := slices.IndexFunc(active, func(a Event) bool { return a.Seq == e.Of })
	switch {
	case i < 0 && e.Of > 0 && e.Of <= len(all) && all[e.Of-1].Kind == Undo:
		return e, refuse(fmt.Sprintf("log e%d again, with --at for when it was", all[e.Of-1].Of), "an undo is not taken back")
	case i < 0 && e.Of > 0 && e.Of <= len(all):
		return e, refuse("log it again if it did happen", "e%d is taken back already", e.Of)
	case i < 0 && e.Of != 0 && len(all) > 0:
		return e, refuse("give the number of an event of this session; potlife log lists them", "there is no e%d; the last is e%d", e.Of, len(all))
	case i < 0:
		return e, refuse("give the number of an event of this session", "there is no event to take back")
	case active[i].Kind == Started:
		return e, refuse("leave the folder and start another session", "the start of a session cannot be taken back")
	}
	e.Seq = len(all) + 1
	_, stuck, err := through(append(slices.Clone(all), e))
	e.Seq = 0
	if err != nil {
		return e, refuse(fmt.Sprintf("take that one back first: potlife log undo e%d", stuck.Seq),
			"without e%d another cannot have happened, e%d, %s at %s: %s", e.Of, stuck.Seq, stuck.Kind, stuck.At.Format(clockOnly), err.(*Refusal).Problem)
	}
	return e, nil
}
