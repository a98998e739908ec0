package vessel

import (
	"math"

	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
)

// Clean is how long a bath may be used from one change to the next, for what sticks in it:
// set, it scores the tow, and flakes of it go into the part (common practice). The zero
// value is until that gels, [Uncleaned] is for ever, and any other value that time.
type Clean quantity.Time

// Uncleaned is for a bath that is never changed for what sticks in it.
const Uncleaned Clean = -1

// byFilm tells that what has stuck must be followed.
func (c Clean) byFilm() bool { return c == 0 }

// stuck is the resin of (5) of the package comment in the run of a bath.
type stuck struct {
	follows bool
	// bulk: nothing fresh was poured on since the last change, so that it is as
	// old as the bath, to the last digit, and gels no sooner.
	bulk          bool
	before, alpha float64 // at the ends of the last step
	usedFrom      float64 // when the bath was filled, s
	y             []float64
}

// Sticking makes the bath follow what has stuck in it where the limits ask for it.
func (b *Bath) Sticking(l Limits) *Bath {
	b.stuck.follows = l.Clean.byFilm()
	b.stuck.y = make([]float64, len(b.y))
	return b
}

// beginStuck is called where a run begins.
func (b *Bath) beginStuck(s *State, at float64) {
	k := &b.stuck
	k.alpha, k.before, k.usedFrom = s.Stuck, s.Stuck, at-float64(s.Used)
	k.bulk = s.Stuck <= s.Alpha
}

// ageStuck is called after every step.
func (b *Bath) ageStuck() {
	k := &b.stuck
	if k.follows && !k.bulk && k.alpha < b.resin.Gel {
		k.before = k.alpha
		k.alpha = b.stuckAt(b.solver.T())
	}
}

// storeStuck leaves it in the state, at t, inside the last step or at its end.
func (b *Bath) storeStuck(s *State, t float64) {
	k := &b.stuck
	s.Used = quantity.Time(t - k.usedFrom)
	switch {
	case !k.follows:
	case k.bulk:
		s.Stuck = s.Alpha
	case t == b.solver.T():
		s.Stuck = k.alpha
	default:
		s.Stuck = b.stuckAt(t)
	}
}

// stuckRise is the most that a step of Kutta's method of order 3 may add to α_s. The
// bath's own steps follow its temperature, which changes slowly where the bath is slow;
// with this bound gel is within 1e-4 of its time, as whatever else comes slowly.
const stuckRise = 0.03

// stuckAt is α_s at time t of the last step.
func (b *Bath) stuckAt(t float64) float64 {
	s := b.solver
	alpha, at, kelvin := b.stuck.before, s.Before(), s.YBefore()[1]
	first := b.resin.CureRate(alpha, kelvin)
	steps := 1 + math.Floor(first*(t-at)/stuckRise)
	for h := (t - at) / steps; ; {
		second := b.resin.CureRate(alpha+h/2*first, b.kelvinAt(at+h/2))
		at, kelvin = at+h, b.kelvinAt(at+h)
		third := b.resin.CureRate(alpha+h*(2*second-first), kelvin)
		alpha += h / 6 * (first + 4*second + third)
		if steps--; steps <= 0 {
			return alpha
		}
		first = b.resin.CureRate(alpha, kelvin)
	}
}

func (b *Bath) kelvinAt(t float64) float64 {
	if t == b.solver.T() {
		return b.solver.Y()[1]
	}
	b.solver.At(t, b.stuck.y)
	return b.stuck.y[1]
}

// cleanMargin is how far the bath is beyond what [Limits.Clean] allows, at time t, the
// end of the last step.
func (b *Bath) cleanMargin(m *measured, t float64) float64 {
	switch k := &b.stuck; {
	case m.clean == Uncleaned:
		return -1
	case !m.clean.byFilm():
		return t - k.usedFrom - float64(m.clean)
	case !k.follows || k.bulk:
		return -1 // the bath's own gel tells it
	default:
		return k.alpha - b.resin.Gel
	}
}

// cleanCrossing finds when in the last step that margin rises through zero, given it at
// both ends.
func (b *Bath) cleanCrossing(m *measured, before, now float64) (float64, bool) {
	if !(before < 0 && now >= 0) { // it only grows
		return 0, false
	}
	if !m.clean.byFilm() {
		return b.stuck.usedFrom + float64(m.clean), true
	}
	margin := func(t float64) float64 { return b.stuckAt(t) - b.resin.Gel }
	return ode.Root(margin, b.solver.Before(), b.solver.T(), before, now), true
}
