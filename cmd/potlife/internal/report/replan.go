package report

import (
	"fmt"
	"io"
	"math"
	"time"

	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// Replan is the JSON of replan: that of a plan, and what is different from the plan of the
// morning.
type Replan struct {
	*Plan
	Session string     `json:"session"`
	Changes []FromPlan `json:"changes_from_plan"`
}

// FromPlan is one thing that is different now: a pot or the end.
type FromPlan struct {
	What    string    `json:"what"`    // pot or end
	Pot     int       `json:"pot"`     // its number of the day; 0 for the end
	Planned *FromPour `json:"planned"` // null: it was not in the plan
	Now     *FromPour `json:"now"`     // null: it is dropped
	Text    string    `json:"text"`
}

// FromPour is when and what: of an end, only when.
type FromPour struct {
	At    time.Time `json:"at"` // when mixing begins
	Into  string    `json:"into"`
	Where string    `json:"where"`
	MassG float64   `json:"mass_g"`
	stop  pourStop
}

// NewReplan compares a plan of the rest with the plan of the morning. morning has no plan
// where the job had none.
func NewReplan(p *Plan, folder string, w *schedule.Winding, morning *batches.Solution, s *replay.Script) *Replan {
	r := &Replan{Plan: p, Session: folder, Changes: []FromPlan{}}
	p.Name += ", the rest of it"
	standing := map[int]int{}
	for _, pot := range s.Standing() {
		standing[pot.Seq] = pot.Number
	}
	p.numberPots(s.NextPot, standing)
	if morning.Plan == nil || !p.planned() {
		return r
	}
	r.pots(w, morning.Plan, s)
	was, is := w.Job.Clock(morning.Plan.End[len(morning.Plan.End)-1]), p.End
	if d := is.Sub(was); math.Abs(d.Minutes()) >= 1 {
		how := "later"
		if d < 0 {
			how = "earlier"
		}
		r.Changes = append(r.Changes, FromPlan{
			What: "end", Planned: &FromPour{At: was}, Now: &FromPour{At: is},
			Text: fmt.Sprintf("the end comes %s %s, at %s", spanOf(d.Abs()), how, clock(is, p.Start)),
		})
	}
	return r
}

func spanOf(d time.Duration) string { s := d.Seconds(); return span(&s) }

// What counts as a difference: a minute, and what a scale and the rounding to it make.
const (
	sameMoment = time.Minute
	sameMass   = 3.0 // g
)

// pots compares those still to be mixed in their order of the day.
func (r *Replan) pots(w *schedule.Winding, morning *batches.Plan, s *replay.Script) {
	var was []FromPour
	for _, pour := range morning.Pours {
		for _, pot := range pour.Pots {
			at := stopOf(w, pour.Stop)
			was = append(was, FromPour{At: w.Job.Clock(pot.MixAt), Into: string(pour.Into), Where: at.words(), MassG: grams(pot.Mass()), stop: at})
		}
	}
	// Those mixed by now are history.
	was = was[min(len(s.Pots), len(was)):]
	var is []FromPour
	for _, pot := range r.Pots {
		if pot.Seq == 0 {
			is = append(is, FromPour{At: pot.MixAt, Into: pot.Into, Where: pot.stop.words(), MassG: pot.MassG, stop: pot.stop})
		}
	}
	for i := range max(len(was), len(is)) {
		c := FromPlan{What: "pot", Pot: s.NextPot + i}
		switch {
		case i >= len(is):
			c.Planned = &was[i]
			c.Text = fmt.Sprintf("pot %d, %s g at %s, is dropped", c.Pot, weight(was[i].MassG), clock(was[i].At, r.Start))
		case i >= len(was):
			c.Now = &is[i]
			c.Text = fmt.Sprintf("pot %d is added: %s g at %s, %s %s", c.Pot, weight(is[i].MassG), clock(is[i].At, r.Start), is[i].Into, is[i].Where)
		case was[i].differs(is[i]):
			c.Planned, c.Now = &was[i], &is[i]
			c.Text = fmt.Sprintf("pot %d: %s instead of %s", c.Pot, is[i].words(r.Start), was[i].words(r.Start))
		default:
			continue
		}
		r.Changes = append(r.Changes, c)
	}
}

func (f FromPour) differs(g FromPour) bool {
	return f.At.Sub(g.At).Abs() >= sameMoment || math.Abs(f.MassG-g.MassG) > sameMass || f.Into != g.Into ||
		f.stop != g.stop && !g.stop.now
}

func (f FromPour) words(first time.Time) string {
	return fmt.Sprintf("%s g at %s, %s %s", weight(f.MassG), clock(f.At, first), f.Into, f.Where)
}

// Text writes the plan of the rest, and then what is different.
func (r *Replan) Text(w io.Writer) error {
	return r.Plan.text(w, func() {
		lines := make([]string, len(r.Changes))
		for i, c := range r.Changes {
			lines[i] = c.Text
		}
		if len(lines) == 0 && r.planned() {
			lines = []string{"nothing: the rest goes by the plan of the morning"}
		}
		section(w, "Different from the plan of the morning", lines)
	})
}
