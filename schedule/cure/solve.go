package cure

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
)

// An Answer is what becomes of a part; times from its last layer.
type Answer struct {
	Likely, Sure *RoomCourse // in the room alone; Sure is the slow bath's
	Start        quantity.Time
	From         quantity.Temperature // of the air as the program starts
	Program      *Program             // nil: none, Why says why
	Tally        *Tally               // of the program
	Why          string
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
		a.Why = "the room alone never makes the part stiff enough to be drawn from its mandrel: cure it on the mandrel first, or in a warmer room"
	case t.Cure.Free:
		a.Start = a.Sure.Demould
	case a.Sure.Through == never:
		a.Why = "the room alone does not gel the part in 28 days: turn it in the oven (cure.oven.turns: true), or wind in a warmer room"
	default:
		a.Start = a.Sure.Through
	}
	a.Start = rounded(a.Start)
	if a.Why != "" {
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
		a.Why = fmt.Sprintf("in the room alone, before any oven, the wall of a fast hardener reaches %s, and %s are allowed: wind it in two goes, or with a slower hardener",
			warm(passed.Peak), celsius(t.Cure.Exotherm))
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
	if err != nil || a.Why != "" {
		return a, err
	}
	if hopeless := t.hopeless(); hopeless != "" {
		a.Why = hopeless
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
	if err != nil || a.Why != "" {
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
func (t *Task) hopeless() string {
	if aim := t.Aim(); !(aim <= 0.999) {
		return fmt.Sprintf("this resin, fully cured, has a glass temperature of %s: no oven gives it %s", celsius(t.Resin.Glass.Cured), celsius(t.Cure.Glass))
	}
	return ""
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

// whyNone says what a slow ramp to the hottest air allowed comes to, held as long as the
// search looks.
func (t *Task) whyNone(stages [baths]stage, a *Answer) (string, error) {
	s := t.newSearch(stages, a.From, guard{})
	slowest := Program{Steps: []Step{{Kind: Ramp, To: quantity.Celsius(float64(s.top)), Rate: min(usualRate, t.Cure.Oven.Ramp)}}}
	air, err := slowest.Air(0, a.From)
	if err != nil {
		return "", err
	}
	open := bounds{exotherm: forbidden, mandrel: forbidden, lead: quantity.TemperatureDifference(math.Inf(-1)), aim: math.Inf(1)}
	c, err := s.stages[slow].follow(t.inOven(slow, slowest.Hottest(a.From)), air, t.Cure.Oven.Loss, searchHorizon, searchInterval, open, still.Working)
	if err != nil {
		return "", err
	}
	f, err := s.stages[fast].follow(t.inOven(fast, slowest.Hottest(a.From)), air, t.Cure.Oven.Loss, searchHorizon, searchInterval, open, still.Working)
	if err != nil {
		return "", err
	}
	top := celsius(quantity.Celsius(float64(s.top)))
	switch {
	case c.laziest < t.Aim():
		return fmt.Sprintf("%s, the hottest air allowed, held for days brings the laziest place of a slow hardener to %.2f, a glass temperature of %s; %.2f is asked: a hotter oven or mandrel, or a lower target",
			top, c.laziest, celsius(t.Resin.Glass.At(c.laziest)), t.Aim()), nil
	case t.Cure.Free && min(c.lead, f.lead) < t.Cure.Margin:
		return fmt.Sprintf("even 10 K/h softens the free part: its glass temperature comes to %.0f K of its own, and %.0f K are asked: cure it on its mandrel, or leave it in the room for longer",
			math.Max(float64(min(c.lead, f.lead)), -99), float64(t.Cure.Margin)), nil
	}
	return fmt.Sprintf("even 10 K/h to %s brings the hottest place to %s, and %s are allowed: hold it in the room for longer, or wind it in two goes",
		top, warm(max(c.peak, f.peak)), celsius(t.Cure.Exotherm)), nil
}

// forbidden is a limit that nothing passes.
var forbidden = quantity.Temperature(math.Inf(1))
