package cure

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/warning"
)

// An Answer is what becomes of a part; times from its last layer.
type Answer struct {
	Likely, Sure *RoomCourse // in the room alone; Sure is the slow bath's
	Start        quantity.Time
	From         quantity.Temperature // of the air as the program starts
	Program      *Program             // nil: none, Why says why
	Tally        *Tally               // of the program
	Why          warning.Warning
	Usual        *Usual // nil without a program of our own
	Given        bool   // the program was given, not searched for
}

// Usual is the trade's rule, 10 K/h and a hold, to the same temperature.
type Usual struct {
	Program Program
	Lasts   quantity.Time // +Inf: it never reaches the target
	Broken  bool          // it breaks a limit all the same
}

// Feasible tells whether there is a program that keeps every limit.
func (a *Answer) Feasible() bool { return a.Program != nil && len(a.Tally.Broken) == 0 }

// End is when the part is out of the oven.
func (a *Answer) End() quantity.Time { return a.Start + a.Program.Lasts(a.From) }

// begin follows the room and finds when a program may start.
func (t *Task) begin() (*Answer, error) {
	a := &Answer{}
	var err error
	if a.Likely, a.Sure, err = t.InRoom(); err != nil {
		return nil, err
	}
	never := quantity.Time(math.Inf(1))
	switch {
	case t.Cure.Oven.Turns:
		a.Start = 0
	case t.Cure.Free && a.Sure.Demould == never:
		a.Why = NeverStiff{}
	case t.Cure.Free:
		a.Start = a.Sure.Demould
	case a.Sure.Through == never:
		a.Why = NeverGels{}
	default:
		a.Start = a.Sure.Through
	}
	a.Start = rounded(a.Start)
	if a.Why != nil {
		return a, nil
	}
	a.From = t.air(t.Wound() + a.Start)
	return a, t.warmsItself(a)
}

// warmsItself tells a part that passes the exotherm's limit before any oven.
func (t *Task) warmsItself(a *Answer) error {
	if a.Start <= 0 {
		return nil
	}
	p, err := t.newPart(fast, finer, still.Working)
	if err != nil {
		return err
	}
	passed, err := p.pot.Passages(p.start, t.Wound(), a.Start)
	if err == nil && passed.Peak > t.Cure.Exotherm {
		a.Why = WarmsItself{Peak: passed.Peak, Allowed: t.Cure.Exotherm}
	}
	return err
}

// rounded is a time up to a whole minute: nobody closes an oven's door to the second.
func rounded(at quantity.Time) quantity.Time {
	return quantity.Time(math.Ceil(float64(at)/60-1e-9) * 60)
}

// Solve finds the fastest program.
func (t *Task) Solve() (*Answer, error) {
	a, err := t.begin()
	if err != nil || a.Why != nil {
		return a, err
	}
	if a.Why = t.hopeless(); a.Why != nil {
		return a, nil
	}
	stages, err := t.stages(a.Start, working)
	if err != nil {
		return nil, err
	}
	few, err := t.few(a.Start, stages)
	if err != nil {
		return nil, err
	}
	g := firstGuard
	for range guardTries {
		s := t.newSearch(stages, a.From, g)
		best, err := t.newSearch(few, a.From, g).run(s)
		if err != nil {
			return nil, err
		}
		if best.verdict != keeps {
			break
		}
		p := s.program(best.shape, heldUp(best.last))
		if a.Tally, err = t.Referee(&p, a.Start); err != nil {
			return nil, err
		}
		if a.Program = &p; len(a.Tally.Broken) == 0 {
			a.Usual, err = s.usual(best)
			return a, err
		}
		g = guard{3 * g.kelvin, 3 * g.degree}
	}
	if a.Program == nil {
		a.Why, err = t.whyNone(stages, a)
	}
	return a, err
}

// few are the stages for the first look: in a thick wall on fewer cells.
func (t *Task) few(start quantity.Time, stages [baths]stage) ([baths]stage, error) {
	if w := &stages[likely].wall; len(stages[likely].start)-w.first <= thickFrom {
		return stages, nil
	}
	return t.stages(start, lumps)
}

// guardTries is how often the search is repeated further off the limits when the referee
// objects.
const guardTries = 3

// heldUp is a hold rounded up to the step of a controller.
func heldUp(hold quantity.Time) quantity.Time {
	return quantity.Time(math.Ceil(float64(hold/holdStep)-1e-9)) * holdStep
}

// Judge simulates a program that somebody else has made.
func (t *Task) Judge(p *Program) (*Answer, error) {
	a, err := t.begin()
	if err != nil || a.Why != nil {
		return a, err
	}
	a.Program, a.Given = p, true
	a.Tally, err = t.Referee(p, a.Start)
	return a, err
}

// stages are the parts of the three baths on a grid as a program starts.
func (t *Task) stages(start quantity.Time, g grid) ([baths]stage, error) {
	var list [baths]stage
	parts, err := t.cut(g)
	if err != nil {
		return list, err
	}
	for b, p := range parts {
		profile := p.start
		if start > 0 {
			if profile, err = p.pot.Advance(profile, t.Wound(), t.Wound()+start); err != nil {
				return list, err
			}
		}
		list[b] = stage{p.wall, profile}
		if t.Cure.Free {
			list[b].wall, list[b].start = p.wall.drawn(profile, t.Mandrel.Bore)
		}
	}
	return list, nil
}

// hopeless tells a target that no oven reaches.
func (t *Task) hopeless() warning.Warning {
	if aim := t.Aim(); !(aim <= 0.999) {
		return GlassNeverReached{Cured: t.Resin.Glass.Cured, Asked: t.Cure.Glass}
	}
	return nil
}

// usual follows 10 K/h and a hold to the temperature of the best program.
func (s *search) usual(best trial) (*Usual, error) {
	u := search{task: s.task, stages: s.stages, from: s.from, guard: s.guard, rates: []quantity.HeatingRate{usualRate}}
	t, err := u.try(shape{t2: best.t2}, forever)
	if err != nil {
		return nil, err
	}
	rule := &Usual{Lasts: forever, Broken: t.verdict == breaks}
	if t.verdict == breaks { // how long would it take all the same?
		u.guard.kelvin = -1e3
		if t, err = u.try(shape{t2: best.t2}, forever); err != nil {
			return nil, err
		}
	}
	if t.verdict == keeps {
		rule.Program = u.program(t.shape, heldUp(t.last))
		rule.Lasts = rule.Program.Lasts(s.from)
	}
	return rule, nil
}

// usualRate is the trade's for a part that stands free (common practice).
const usualRate quantity.HeatingRate = 10.0 / 3600

// whyNone is what a slow ramp to the hottest air allowed comes to, held as long as the
// search looks.
func (t *Task) whyNone(stages [baths]stage, a *Answer) (warning.Warning, error) {
	s := t.newSearch(stages, a.From, guard{})
	slowest := Program{Steps: []Step{{Kind: Ramp, To: quantity.Celsius(float64(s.top)), Rate: min(usualRate, t.Cure.Oven.Ramp)}}}
	air, err := slowest.Air(0, a.From)
	if err != nil {
		return nil, err
	}
	open := bounds{exotherm: forbidden, mandrel: forbidden, lead: quantity.TemperatureDifference(math.Inf(-1)), aim: math.Inf(1)}
	c, err := s.stages[slow].follow(t.inOven(slow, slowest.Hottest(a.From)), air, t.Cure.Oven.Loss, searchHorizon, searchInterval, open, still.Working)
	if err != nil {
		return nil, err
	}
	f, err := s.stages[fast].follow(t.inOven(fast, slowest.Hottest(a.From)), air, t.Cure.Oven.Loss, searchHorizon, searchInterval, open, still.Working)
	if err != nil {
		return nil, err
	}
	top, lead := quantity.Celsius(float64(s.top)), min(c.lead, f.lead)
	switch {
	case c.laziest < t.Aim():
		return CureNeverReached{Air: top, Degree: c.laziest, Glass: t.Resin.Glass.At(c.laziest), Asked: t.Aim()}, nil
	case t.Cure.Free && lead < t.Cure.Margin:
		return FreePartAlwaysSoftens{Lead: lead, Margin: t.Cure.Margin}, nil
	}
	return AlwaysTooHot{Air: top, Peak: max(c.peak, f.peak), Allowed: t.Cure.Exotherm}, nil
}

// forbidden is a limit that nothing passes.
var forbidden = quantity.Temperature(math.Inf(1))
