package report

import (
	"fmt"
	"io"
	"math"
	"time"

	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// Replan is the JSON of replan: that of a plan, and what is different from the plan in force.
type Replan struct {
	*Plan
	Session string         `json:"session"`
	Changes []FromPlan     `json:"changes_from_plan"`
	First   []string       `json:"first"`   // what comes before any plan: none is made then, and there is none here
	Hazards []Hazard       `json:"hazards"` // among that
	Clocks  *Clocks        `json:"clocks"`  // that differ; null: they agree, or --at said when now is
	Taken   *session.Event `json:"taken"`   // that keeps this plan as the one in force; null: it was not taken

	was *session.Plan // in force; nil: none is
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

// NoReplan is the answer where something is dangerous, or two clocks differ.
func NoReplan(c *Check) *Replan {
	none := &Plan{Layers: []Layer{}, Pots: []Pot{}, Helps: []Help{}, Warned: NewWarned(), Cautions: []string{}}
	return &Replan{Plan: none, Session: c.Session, First: c.First, Hazards: c.Hazards, Clocks: c.Clocks, Changes: []FromPlan{}}
}

// NewReplan compares a plan of the rest, and its form for the journal, with the plan in force.
// Without either there is nothing to compare.
func NewReplan(p *Plan, folder string, s *replay.Script, now *session.Plan) *Replan {
	r := &Replan{Plan: p, Session: folder, First: []string{}, Hazards: []Hazard{}, Changes: []FromPlan{}, was: s.Plan.Plan}
	p.Name += ", the rest of it"
	standing := map[int]int{}
	for _, pot := range s.Standing() {
		standing[pot.Seq] = pot.Number
	}
	p.numberPots(s.NextPot, standing)
	if r.was != nil && now != nil {
		r.Changes = changesOf(s.Plan, now, potSeqs(s), s.NextPot, s.Winding.Job.Zone)
	}
	return r
}

// potSeqs are the events of the pots mixed so far.
func potSeqs(s *replay.Script) []int {
	list := make([]int, len(s.Pots))
	for i := range s.Pots {
		list[i] = s.Pots[i].Seq
	}
	return list
}

// changesOf tells what of a plan is different in the one that comes after it. mixed are the
// events of the pots mixed by then: they are history; next is the number of the one after them.
func changesOf(before session.Event, is *session.Plan, mixed []int, next int, zone *time.Location) []FromPlan {
	own := 0 // pots of the plan before that are mixed
	for _, seq := range mixed {
		if seq > before.Seq {
			own++
		}
	}
	c := &comparison{first: is.From.In(zone), list: []FromPlan{}}
	was := potsToMix(before.Plan, zone)
	c.pots(was[min(own, len(was)):], potsToMix(is, zone), next)
	c.end(before.Plan.End.In(zone), is.End.In(zone))
	for i := range c.list {
		shown("change-from-plan", &c.list[i].Text)
	}
	return c.list
}

// A comparison of two plans, the later of which begins at first.
type comparison struct {
	first time.Time
	list  []FromPlan
}

func (c *comparison) end(was, is time.Time) {
	d := is.Sub(was)
	if d.Abs() < sameMoment {
		return
	}
	how := "later"
	if d < 0 {
		how = "earlier"
	}
	c.list = append(c.list, FromPlan{
		What: "end", Planned: &FromPour{At: was}, Now: &FromPour{At: is},
		Text: fmt.Sprintf("the end comes %s %s, at %s", spanOf(d.Abs()), how, clock(is, c.first)),
	})
}

func spanOf(d time.Duration) string { s := d.Seconds(); return span(&s) }

// What counts as a difference: two minutes, since a rest that is asked for a minute later may
// come a minute later, and what a scale and the rounding to it make.
const (
	sameMoment = 2 * time.Minute
	sameMass   = 3.0 // g
)

// potsToMix are those that a plan mixes, in their order of the day.
func potsToMix(p *session.Plan, zone *time.Location) []FromPour {
	var list []FromPour
	for i, pour := range p.Pours {
		stop := keptStop(&pour)
		if i == 0 && p.Why != session.AtStart {
			stop = pourStop{now: true}
		}
		for _, pot := range pour.Pots {
			if pot.Pot == 0 {
				list = append(list, FromPour{At: pot.MixAt.In(zone), Into: pour.Into, Where: stop.words(), MassG: pot.ResinG + pot.HardenerG, stop: stop})
			}
		}
	}
	return list
}

// keptStop is where a pour of a kept plan happens.
func keptStop(p *session.PlanPour) pourStop {
	if p.Circuits > 0 {
		return pourStop{layer: p.Layer, circuit: p.Circuits}
	}
	return pourStop{layer: p.Layer - 1}
}

// pots compares those still to be mixed, the first of which has the number given.
func (c *comparison) pots(was, is []FromPour, number int) {
	for i := range max(len(was), len(is)) {
		one := FromPlan{What: "pot", Pot: number + i}
		switch {
		case i >= len(is):
			one.Planned = &was[i]
			one.Text = fmt.Sprintf("pot %d, %s g at %s, is dropped", one.Pot, weight(was[i].MassG), clock(was[i].At, c.first))
		case i >= len(was):
			one.Now = &is[i]
			one.Text = fmt.Sprintf("pot %d is added: %s g at %s, %s %s", one.Pot, weight(is[i].MassG), clock(is[i].At, c.first), is[i].Into, is[i].Where)
		case was[i].differs(is[i]):
			one.Planned, one.Now = &was[i], &is[i]
			one.Text = fmt.Sprintf("pot %d: %s instead of %s", one.Pot, is[i].words(c.first), was[i].words(c.first))
		default:
			continue
		}
		c.list = append(c.list, one)
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
	if len(r.First) > 0 {
		for _, text := range r.First {
			say(w, text, "", "  ")
		}
		none := "No plan is made before that is done and logged."
		if r.Clocks != nil {
			none = "No plan is made before the clocks agree: potlife replan --at last makes one as of the last event."
		}
		say(w, none, "", "")
		return nil
	}
	name := r.planName()
	err := r.Plan.text(w, func() {
		lines := make([]string, len(r.Changes))
		for i, c := range r.Changes {
			lines[i] = c.Text
		}
		if len(lines) == 0 && r.planned() {
			lines = []string{"nothing: the rest goes by the " + name}
		}
		section(w, "Different from the "+name, lines)
	})
	if err == nil && r.Taken != nil {
		_, err = fmt.Fprintf(w, "\nlogged e%d: %s\n", r.Taken.Seq, Happened(*r.Taken))
	}
	return err
}

// planName names the plan in force.
func (r *Replan) planName() string {
	if r.was == nil || r.was.Why == session.AtStart {
		return "plan of the morning"
	}
	return "plan of " + clock(r.was.From.In(r.Start.Location()), r.Start)
}
