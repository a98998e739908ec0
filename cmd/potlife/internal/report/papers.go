package report

import (
	"fmt"
	"strconv"
	"time"

	"potlife/cmd/potlife/internal/calendar"
	"potlife/cmd/potlife/internal/sheet"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// alarmBefore is how long before a pot the calendar calls: to put on gloves and weigh.
const alarmBefore = 5 * time.Minute

const dayLayout = "Monday 2 January 2006"

// Papers make a plan into what is carried away from the screen.
type Papers struct {
	plan *Plan
	w    *schedule.Winding
	p    *batches.Plan
}

// NewPapers are those of a feasible plan, which has been told [Plan.Late].
func NewPapers(plan *Plan, w *schedule.Winding, s *batches.Solution) *Papers {
	return &Papers{plan: plan, w: w, p: s.Plan}
}

// slot is a pot with where it stands in the plan.
type slot struct {
	pot    *batches.MixedPot
	pour   *batches.Pour
	late   quantity.Time
	number int  // of the day
	stands bool // mixed already
	adds   bool // to the first pot of its pour
	first  bool // to be mixed for its pour
}

// step prints grams with as many decimals as any of the pots needs.
func (d *Papers) step() func(quantity.Mass) string {
	digits := 0
	for _, pot := range d.plan.Pots {
		digits = max(digits, decimals(pot.ResinG), decimals(pot.HardenerG))
	}
	return func(m quantity.Mass) string { return strconv.FormatFloat(grams(m), 'f', digits, 64) }
}

// slots are the pots in the order in which they are mixed.
func (d *Papers) slots() []slot {
	var list []slot
	for i := range d.p.Pours {
		pour, first := &d.p.Pours[i], true
		for k := range pour.Pots {
			s := slot{pot: &pour.Pots[k], pour: pour, late: d.plan.late[i], adds: k > 0, number: d.plan.Pots[len(list)].Number}
			if s.stands = s.pot.Seq > 0; !s.stands {
				s.first, first = first, false
			}
			list = append(list, s)
		}
	}
	return list
}

// Sheet is the page to hang up.
func (d *Papers) Sheet() *sheet.Page {
	mix := d.w.Record.Mix
	page := &sheet.Page{
		Title: d.plan.Name, Day: d.plan.Start.Format(dayLayout),
		Resin: d.plan.Resin, Mix: fmt.Sprintf("100 resin : %.3g hardener by mass", mix.HardenerByMass()),
		Verdict: fmt.Sprintf("%s, from %s to %s", plural(d.plan.Totals.Pots, "pot"), clock(d.plan.Start, d.plan.Start), clock(d.plan.End, d.plan.Start)),
		Doubts:  d.plan.Warnings, Care: d.plan.Cautions,
	}
	for _, limit := range []vessel.Limit{vessel.BathViscosity, vessel.BathTemperature, vessel.LaidViscosity, vessel.Gel, vessel.NotClean} {
		if limit == vessel.NotClean && d.w.Task.Limits.Clean == vessel.Uncleaned {
			continue
		}
		page.Limits = append(page.Limits, d.plan.Limits.words(limit))
	}
	slots, day := d.slots(), 0
	for i := range d.plan.Layers {
		l := &d.plan.Layers[i]
		rows := []sheet.Row{{Layer: d.layer(l)}}
		for n := 0; len(slots) > 0 && d.w.Task.Units[slots[0].pour.Stop].Layer == l.index; n++ {
			if n == len(rows) {
				rows = append(rows, sheet.Row{})
			}
			rows[n].Pot, rows[n].Day = d.pot(&slots[0]), d.newDay(d.begins(&slots[0]), &day)
			slots = slots[1:]
		}
		if rows[0].Pot == nil {
			rows[0].Day = d.newDay(*l.Start, &day)
		}
		page.Rows = append(page.Rows, rows...)
	}
	return page
}

// newDay is the heading of a moment's day, empty within the day of what is above it.
func (d *Papers) newDay(t time.Time, day *int) string {
	if heading(t, d.plan.Start, day) == "" {
		return ""
	}
	return t.Round(time.Minute).Format(dayLayout)
}

// begins is when the first hand is laid on a pot.
func (d *Papers) begins(s *slot) time.Time {
	if s.stands {
		return d.w.Job.Clock(s.pour.At)
	}
	return d.w.Job.Clock(s.pot.MixAt)
}

func (d *Papers) layer(l *Layer) *sheet.Layer {
	return &sheet.Layer{
		Name: l.Name, Detail: fmt.Sprintf("%s, %s", plural(l.Circuits, "circuit"), l.onWhat()),
		Begin: hand(*l.Start), Done: hand(*l.End),
	}
}

// onWhat says what a layer is laid on and what that asks.
func (l *Layer) onWhat() string {
	switch l.laidOn() {
	case "mandrel":
		return "on the mandrel"
	case "wet":
		return "wet on wet"
	}
	return "on a gelled layer: abrade and clean first"
}

// intoWords say what is done to the bath.
var intoWords = map[batches.Into]string{
	batches.Fill: "fill", batches.TopUp: "top up", batches.Change: "change: dump, wipe, fill",
}

// added is said of a pot that follows another into the same bath: whoever reads "change" again
// dumps the pot just poured.
const added = "add"

// into says what is done to the bath with a pot.
func (s *slot) into() string {
	if s.adds && s.pour.Into != batches.TopUp {
		return added
	}
	return intoWords[s.pour.Into]
}

func (d *Papers) pot(s *slot) *sheet.Pot {
	g := d.step()
	pot := &sheet.Pot{
		Number: number(s.number), Into: s.into(), Where: d.inLayer(s.pour),
		Resin: g(s.pot.Resin), Hardener: g(s.pot.Hardener), Mass: g(s.pot.Mass()),
		Mix: hand(d.w.Job.Clock(s.pot.MixAt)), Pour: hand(d.w.Job.Clock(s.pour.At)),
		PourBy: d.latest(s.pour.At, s.late),
	}
	switch {
	case s.stands:
		pot.Mix, pot.PourBy = "stands", ""
	case s.first:
		pot.MixBy = d.latest(s.pot.MixAt, s.late)
	default:
		pot.MixBy = "after pot " + strconv.Itoa(s.number-1)
	}
	return pot
}

// inLayer says where in a layer a pour comes; nothing for one before it.
func (d *Papers) inLayer(p *batches.Pour) string {
	if p.Stop == 0 || d.w.Task.Units[p.Stop-1].EndsLayer {
		return ""
	}
	return "after circuit " + number(d.w.Task.Units[p.Stop-1].Circuits)
}

// latest is the latest time in words.
func (d *Papers) latest(at, late quantity.Time) string {
	return "latest " + hand(latest(d.w.Job.Clock(at), d.w.Job.Clock(at+late)))
}

// Calendar has an event for every pot that is still to be mixed, from its mixing to its
// pour; nil without any. Times are to the minute, as everywhere: a phone that cuts off the
// seconds must not say another minute than the sheet.
//
// The identity of an event is made of the job's name, the day it starts on and the number of
// the pot. Planning the same day again moves what the calendar has; winding the same job
// on another day adds to it.
//
// stamp is the moment of writing, since RFC 5545, 3.8.7.2 has it say when the event was last
// revised: with one taken from the job, a job whose times were changed would look no newer
// than before, and a program might keep the old times.
func (d *Papers) Calendar(stamp time.Time) *calendar.Calendar {
	c := &calendar.Calendar{Product: "-//potlife//potlife//EN", Stamp: stamp}
	job, g := d.w.Job, d.step()
	for _, s := range d.slots() {
		if s.stands {
			continue
		}
		c.Events = append(c.Events, calendar.Event{
			UID:     calendar.UID(job.Name, job.Start.Format(time.DateOnly), number(s.number)),
			Start:   job.Clock(s.pot.MixAt).Round(time.Minute),
			End:     job.Clock(s.pour.At).Round(time.Minute),
			Summary: fmt.Sprintf("Pot %d: %s g resin, %s g hardener", s.number, g(s.pot.Resin), g(s.pot.Hardener)),
			Alarm:   alarmBefore, Description: d.eventWords(&s),
		})
	}
	if len(c.Events) == 0 {
		return nil
	}
	return c
}

func (d *Papers) eventWords(s *slot) string {
	pot := d.pot(s)
	where := d.inLayer(s.pour)
	if where == "" {
		where = "before layer"
	}
	return fmt.Sprintf("%s\nMix at %s (%s), pour at %s (%s): %s, %s %s.\n%s", d.plan.Name, pot.Mix, pot.MixBy, pot.Pour, pot.PourBy,
		pot.Into, where, d.w.Laid[d.w.Task.Units[s.pour.Stop].Layer].Name, hotPot)
}
