package replay

import (
	"cmp"
	"math"
	"slices"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
)

// A Script is what the events of a day up to a moment mean for the resin, in elapsed
// seconds of the job.
type Script struct {
	Winding  *schedule.Winding // of the day of the session
	Task     *batches.Task     // the winding's, in the room as it was read
	Day      session.Day       // where the winding stands at Now
	Now      quantity.Time
	Pots     []Pot // mixed, by time
	NextPot  int   // the number of the next
	Readings []Reading
	Layers   []Layer // begun, by number
	Pace     float64 // time taken by the layers done, as a factor of the time planned, (3)
	// Plan is the event whose plan is in force; without a plan: none is. It means nothing to
	// the resin.
	Plan session.Event
	// Clocks has the events that lie ahead of the clock by which the day is asked about; none: it
	// agrees. Blind: the day is as of its last event then, and how long ago that was is not known.
	Clocks session.ClocksDiffer
	Blind  bool

	events    []session.Event
	outranks  int           // the reading that is the bath's temperature, whatever is reckoned; 0: none
	last      quantity.Time // when the last event of the day happened
	machine   quantity.Time // when somebody last logged what the machine does, or a note
	told      quantity.Time // when somebody last logged what happened, readings left out
	steps     []step
	weighFrom int   // index of the step from which readings weigh the members: a fill, or the first
	watchFrom int   // index of the step with which the bath of now began; the limits count from there
	spare     []int // readings that no step stops at
	slots     int   // of the readings that are no spare ones
	ofBefore  int   // so many readings, the first, are of what was in the bath before it was last poured into or emptied
	ofOther   int   // so many, the first, are of a bath that was emptied since
	past      *Reading
	pastFrom  quantity.Time
}

// A Pot is one cup mixed. It stands in its cup until PouredAt, or until it is gone: spread,
// taken away or set and cold.
type Pot struct {
	Seq     int
	Number  int
	MixedAt quantity.Time
	resins.Pot
	Mixed    quantity.Temperature // as read when it was mixed; 0: not read
	Poured   bool
	Gone     bool
	PouredAt quantity.Time
}

// action is what a step does to the bath.
type action int

const (
	pour action = iota
	empty
	weighed
	taken
	runTow
	read
	begun
	finished
)

// A step is what happens to the bath at one moment. The bath stands, or the tow runs, until
// then.
type step struct {
	at    float64 // s
	do    action
	index int           // of the pot, the reading or the layer
	tow   vessel.Tow    // runTow: from now on
	mass  quantity.Mass // weighed, taken
}

// Compile makes a script of the events that happened by now. The winding is that of the
// session's job, moved to the day of the session.
//
// The error is a [*session.Refusal] for a journal whose events cannot have happened.
func Compile(w *schedule.Winding, all []session.Event, now time.Time) (*Script, error) {
	s, err := compiled(w, all, now)
	if err != nil {
		return nil, err
	}
	s.thin()
	s.withoutSpare()
	return s, nil
}

// compiled is a script in which all readings of the latest baths weigh.
func compiled(w *schedule.Winding, all []session.Event, now time.Time) (*Script, error) {
	until := before(all, now)
	day, err := session.Through(until)
	if err != nil {
		return nil, err
	}
	s := &Script{events: all, Winding: w, Day: day, Now: elapsed(w.Job, now), NextPot: session.NextPot(until), watchFrom: -1}
	active := session.Active(until)
	task := *w.Task
	task.Room = roomAsRead(w, active, day.Started)
	if !w.Job.Bath.HasJacket {
		task.Wall = task.Room
	}
	if w.Job.Mandrel.Temperature == 0 {
		task.Limits.Mandrel = task.Room
	}
	s.Task = &task
	s.Plan, _ = session.InForce(active)
	s.told, s.last = s.lastTold(active)
	if !task.Pots.Helper {
		active = handsFull(active, task.Pots.Mixing, task.Bath.Pour, now)
	}
	s.layers(active)
	s.compile(active)
	s.warms()
	s.weighLatest()
	s.past, s.pastFrom = s.pastReading()
	return s, nil
}

// before is what had happened by a moment, as it is known now: an undo counts whenever it
// was logged.
func before(all []session.Event, now time.Time) []session.Event {
	happened := map[int]bool{}
	for _, e := range all {
		happened[e.Seq] = e.Kind != session.Undo && !e.At.After(now)
	}
	return slices.DeleteFunc(slices.Clone(all), func(e session.Event) bool {
		return !happened[e.Seq] && !(e.Kind == session.Undo && happened[e.Of])
	})
}

func elapsed(j *schedule.Job, t time.Time) quantity.Time {
	return quantity.Time(t.Sub(j.Start).Seconds())
}

// compile turns the events into steps.
func (s *Script) compile(active []session.Event) {
	filled, layer := false, 0
	for _, e := range active {
		at := float64(elapsed(s.Winding.Job, e.At))
		add := func(do action, index int) { s.steps = append(s.steps, step{at: at, do: do, index: index}) }
		switch e.Kind {
		case session.Mixed:
			s.Pots = append(s.Pots, Pot{Seq: e.Seq, Number: e.PotNumber, MixedAt: quantity.Time(at), Pot: s.weighed(e), Mixed: asRead(e)})
		case session.Poured:
			i := slices.IndexFunc(s.Pots, func(p Pot) bool { return p.Seq == e.Pot })
			s.Pots[i].Poured, s.Pots[i].PouredAt = true, quantity.Time(at)
			if !filled {
				s.watchFrom, filled = len(s.steps), true
			}
			add(pour, i)
			s.ofBefore = len(s.Readings)
		case session.Spread, session.ThrownOut, session.Cured:
			if !e.Bath {
				i := slices.IndexFunc(s.Pots, func(p Pot) bool { return p.Seq == e.Pot })
				s.Pots[i].Gone = true
				continue
			}
			s.tow(at, nil)
			filled, s.watchFrom = false, -1
			add(empty, 0)
			s.ofBefore, s.ofOther = len(s.Readings), len(s.Readings)
		case session.Changed:
			filled, s.watchFrom = false, -1
			add(empty, 0)
			s.ofBefore, s.ofOther = len(s.Readings), len(s.Readings)
		case session.LeftOver:
			s.steps = append(s.steps, step{at: at, do: weighed, mass: quantity.Mass(*e.Grams / 1000)})
		case session.Begin:
			layer = e.Layer
			add(begun, layer-1)
			s.tow(at, &s.Layers[layer-1])
		case session.Done:
			if l := &s.Layers[layer-1]; l.Ran < shortestRun {
				// It did run; when was not told.
				s.steps = append(s.steps, step{at: at, do: taken, mass: l.Resin})
			}
			s.tow(at, nil)
			add(finished, layer-1)
		case session.Finish:
			if s.Day.GivenUp > 0 {
				s.tow(at, nil)
				add(finished, layer-1)
			}
		case session.Pause:
			s.tow(at, nil)
		case session.Resume:
			if layer > 0 && s.Layers[layer-1].inHandAt(at) {
				s.tow(at, &s.Layers[layer-1])
			}
		}
		if r, ok := reading(e, at); ok {
			s.Readings = append(s.Readings, r)
			add(read, len(s.Readings)-1)
		}
	}
}

// lastTold is when somebody last logged what happened to the machine, a pot or the bath, and when
// anything was.
func (s *Script) lastTold(active []session.Event) (told, last quantity.Time) {
	for _, e := range active {
		last = elapsed(s.Winding.Job, e.At)
		switch e.Kind {
		case session.BathTemp, session.Room, session.FlowCup, session.Viscosity, session.Weighed, session.Planned:
			continue
		case session.Begin, session.Done, session.Pause, session.Resume, session.Note:
			s.machine = last
		}
		if e.Kind != session.Note {
			told = last
		}
	}
	return told, last
}

// Window is how long a plan that check makes for itself stands, where nothing is logged (our
// choice).
const Window quantity.Time = 10 * 60

// AtWindow is the day as it was when something was last logged, or where that is long ago a whole
// number of windows later. What is made of it is the same at every moment of a window.
func (s *Script) AtWindow() (*Script, error) {
	at := s.last + quantity.Time(math.Floor(float64((s.Now-s.last)/Window)))*Window
	then, err := Compile(s.Winding, s.events, s.Winding.Job.Clock(at))
	if err == nil {
		then.Plan = s.Plan
	}
	return then, err
}

func asRead(e session.Event) quantity.Temperature {
	if e.IsC == nil {
		return 0
	}
	return quantity.Celsius(*e.IsC)
}

// weighed is a pot as it was weighed: both parts, or a mass taken to be at the ratio.
func (s *Script) weighed(e session.Event) resins.Pot {
	if e.MassG > 0 {
		resin, hardener := s.Winding.Record.Mix.Split(quantity.Mass(e.MassG / 1000))
		return resins.Pot{Resin: resin, Hardener: hardener}
	}
	return resins.Pot{Resin: quantity.Mass(e.ResinG / 1000), Hardener: quantity.Mass(e.HardenerG / 1000)}
}

// enoughReadings is how many of the latest readings are weighed at least, where there are
// so many: twice what may count, (5) of the package comment. Older ones, of baths that were
// dumped since, would only cost time.
const enoughReadings = 2 * independent

// weighLatest leaves out the baths before the one that makes the readings enough.
func (s *Script) weighLatest() {
	found, last := 0, s.watchFrom
	if last < 0 {
		last = len(s.steps)
	}
	for i := len(s.steps) - 1; i >= 0; i-- {
		if s.steps[i].do == read {
			found++
		}
		fills := s.steps[i].do == pour && s.fills(i)
		if fills && i <= last && found >= enoughReadings {
			s.weighFrom = i
			break
		}
	}
	for i := range s.steps[:s.weighFrom] {
		if s.steps[i].do == read {
			s.Readings[s.steps[i].index].Old = true
		}
	}
}

// fills tells whether a pour goes into a clean bath.
func (s *Script) fills(i int) bool {
	for i--; i >= 0; i-- {
		switch s.steps[i].do {
		case pour:
			return false
		case empty:
			return true
		}
	}
	return true
}

// tow sets what the tow does from a moment on: nothing, or run for a layer.
func (s *Script) tow(at float64, l *Layer) {
	next := step{at: at, do: runTow}
	if l != nil {
		next.tow = l.tow(s.Task.Fibre)
	}
	s.steps = append(s.steps, next)
}

// Running tells whether the tow runs now.
func (s *Script) Running() bool { return s.Day.InHand > 0 && !s.Day.Paused }

// InHand is the layer being wound, nil for none.
func (s *Script) InHand() *Layer {
	if s.Day.InHand == 0 {
		return nil
	}
	return &s.Layers[s.Day.InHand-1]
}

// Standing are the pots in their cups, the oldest first.
func (s *Script) Standing() []Pot {
	list := slices.DeleteFunc(slices.Clone(s.Pots), func(p Pot) bool { return p.Poured || p.Gone })
	slices.SortStableFunc(list, func(a, b Pot) int { return cmp.Compare(a.MixedAt, b.MixedAt) })
	return list
}

// Filled tells whether there is resin in the bath now.
func (s *Script) Filled() bool { return s.Day.Filled }

// FilledFrom is when the oldest resin of the bath was mixed.
func (s *Script) FilledFrom() quantity.Time {
	oldest := s.Now
	for _, st := range s.steps[max(s.watchFrom, 0):] {
		if st.do == pour {
			oldest = min(oldest, s.Pots[st.index].MixedAt)
		}
	}
	return oldest
}

// PastReading is a reading of this bath that lies past a limit by more than its own error; nil:
// none. A viscosity is taken back by a later one, or by a pour. One temperature alone may be a slip
// and is taken back by the next. Two in a row are not: a thermometer that came out of a hot bath
// reads the room, so that the hottest of them stands until the bath is emptied. No temperature is
// taken back by what was poured in since: it says nothing of how hot the bath is then.
func (s *Script) PastReading() *Reading { return s.past }

// PastFrom is when the first reading of the kind of [Script.PastReading] lay past the limit.
func (s *Script) PastFrom() quantity.Time { return s.pastFrom }

func (s *Script) pastReading() (*Reading, quantity.Time) {
	var hot, thick *Reading
	var hotFrom quantity.Time
	inRow := 0 // that were hot
	for i := s.ofOther; i < len(s.Readings); i++ {
		r := &s.Readings[i]
		past := r.Past(s.Task.Limits)
		switch {
		case r.Viscous && i >= s.ofBefore:
			if thick = nil; past {
				thick = r
			}
		case r.Viscous:
		case !past && inRow == 1:
			hot, inRow = nil, 0
		case past:
			if inRow++; hot == nil {
				hotFrom = r.At
			}
			if hot == nil || r.Temperature > hot.Temperature {
				hot = r
			}
		}
	}
	switch {
	case hot != nil:
		return hot, hotFrom
	case thick != nil:
		return thick, thick.At
	}
	return nil, 0
}

// BeforePour tells whether a reading is of what was in the bath before it was last poured
// into, or before it was changed.
func (s *Script) BeforePour(r *Reading) bool {
	k := slices.IndexFunc(s.Readings, func(of Reading) bool { return of.Seq == r.Seq })
	return k < s.ofBefore
}
