package vessel

import (
	"math"

	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
)

// A Life is what [Bath.Life] finds.
type Life struct {
	// Left is the time until the first limit, +Inf when none is reached before
	// the horizon.
	Left   quantity.Time
	EndsBy Limit
	// TooThickFor is how long the bath stays above its viscosity limit before
	// warming cures it, 0 for a bath within its limits; ThinAt is the
	// temperature at which it has thinned.
	TooThickFor quantity.Time
	ThinAt      quantity.Temperature
}

// Over tells whether the life has no time left.
func (l Life) Over() bool { return l.EndsBy != NoLimit && l.Left <= 0 }

// Life returns the working life of s from elapsed time from on: the first
// upward crossing of any limit after the bath was first within all of them.
// Falling back later, as a burnt-out exotherm does, does not undo it. A bath
// above its viscosity limit from mixing, and above no other, is given the time
// to thin by warming; if it never does, its life is 0 and ends by [TooThick].
//
// The tow is as it is now until the horizon, except that it stops drawing when
// the bath is down to lowest; pass a zero Tow for a machine that stands.
// Nothing is looked for beyond from + horizon.
func (b *Bath) Life(s State, from quantity.Time, tow Tow, lowest quantity.Mass, l Limits, horizon quantity.Time) (Life, error) {
	w := NewWatch(b, l)
	t, end := float64(from), float64(from+horizon)
	if tow.DrawKgPerS > 0 {
		drawn := t + math.Max(0, float64(s.Mass-lowest))/tow.DrawKgPerS
		var err error
		if t, err = b.run(&s, t, math.Min(end, drawn), tow, w); err != nil {
			return Life{}, err
		}
		tow.DrawKgPerS = 0
	}
	if !w.Ended() && t < end {
		if _, err := b.run(&s, t, end, tow, w); err != nil {
			return Life{}, err
		}
	}
	return w.Life(from), nil
}

// A Watch follows a bath through pours, winding and standing and keeps the
// moment at which its working life ends.
type Watch struct {
	bath   *Bath
	limits measured
	inside bool // within all limits since some moment
	now    margins

	endedBy   Limit
	endedAt   float64
	thinnedAt float64 // NaN: never too thick, or not yet thin
	thinK     float64
	waiting   bool // too thick from mixing
}

// NewWatch returns a watch for a fresh bath.
func NewWatch(b *Bath, l Limits) *Watch {
	return &Watch{bath: b, limits: b.measure(l), thinnedAt: math.NaN()}
}

// Fresh makes the watch forget everything: a clean bath is filled.
func (w *Watch) Fresh() {
	*w = Watch{bath: w.bath, limits: w.limits, thinnedAt: math.NaN()}
}

// Ended tells whether a limit was crossed.
func (w *Watch) Ended() bool { return w.endedBy != NoLimit }

// TooThick tells whether the bath has been above its viscosity limit since it
// was mixed and still is.
func (w *Watch) TooThick() bool { return w.waiting }

// End returns the limit crossed and when.
func (w *Watch) End() (Limit, quantity.Time) { return w.endedBy, quantity.Time(w.endedAt) }

// Advance follows s under the watch, to the end or to the step in which a limit
// was crossed; it returns the state and the time there.
func (w *Watch) Advance(s State, from, to quantity.Time, tow Tow) (State, quantity.Time, error) {
	t, err := w.bath.run(&s, float64(from), float64(to), tow, w)
	return s, quantity.Time(t), err
}

func (w *Watch) begin(b *Bath, t float64, y []float64) {
	w.now = b.all(&w.limits, t, y)
	if w.Ended() {
		return
	}
	over := w.now.worst()
	switch {
	case over < 0 && w.waiting:
		// A pour: the state may have jumped.
		w.thinned(t, y[1])
	case over < 0:
		w.inside = true
	case w.inside:
		w.end(limitNames[over], t)
	case w.now.onlyTooThick():
		w.waiting = true
	case w.waiting:
		w.end(TooThick, t)
	default:
		w.end(w.now.fromTheStart(), t)
	}
}

func (w *Watch) end(by Limit, t float64) {
	w.endedBy, w.endedAt, w.waiting = by, t, false
}

func (w *Watch) thinned(t, kelvin float64) {
	w.waiting, w.inside = false, true
	w.thinnedAt, w.thinK = t, kelvin
}

func (w *Watch) step(b *Bath) bool {
	if w.Ended() {
		return true
	}
	s := b.solver
	before := w.now
	w.now = b.all(&w.limits, s.T(), s.Y())
	if w.waiting {
		w.stepWaiting(b, before)
	} else if first, at := w.first(b, byBathViscosity, before); first >= 0 {
		w.end(limitNames[first], at)
	}
	return w.Ended()
}

// first finds which of the limits from index from on is crossed first in the
// last step, and when; -1 and +Inf if none is.
func (w *Watch) first(b *Bath, from int, before margins) (first int, at float64) {
	s := b.solver
	middle := (s.Before() + s.T()) / 2
	s.At(middle, b.scratch)
	between := b.all(&w.limits, middle, b.scratch)
	first, at = -1, math.Inf(1)
	for i := from; i < limitCount; i++ {
		if i == byLaidViscosity && w.limits.mandrel.next(s.Before()) < s.T() {
			if t, found := w.crossingAtKinks(b, before[i]); found && t < at {
				first, at = i, t
			}
			continue
		}
		if i == byClean {
			if t, found := b.cleanCrossing(&w.limits, before[i], w.now[i]); found && t < at {
				first, at = i, t
			}
			continue
		}
		if calm(before[i], between[i], w.now[i]) {
			continue
		}
		margin := func(t float64, y []float64) float64 { return b.one(&w.limits, i, t, y) }
		if t, found := s.Crossing(margin, before[i], w.now[i], b.scratch); found && t < at {
			first, at = i, t
		}
	}
	return first, at
}

// calm tells that a margin, of which the values at the start, in the middle and
// at the end of a step are given, stays below zero all the way: a parabola rises
// above the largest of three values by an eighth of their spread at most.
func calm(before, middle, now float64) bool {
	top := math.Max(before, math.Max(middle, now))
	return top < math.Min(before, math.Min(middle, now))-top-1e-3
}

// crossingAtKinks looks for the laid limit in a step during which the mandrel's
// temperature has kinks, piece by piece.
func (w *Watch) crossingAtKinks(b *Bath, low float64) (float64, bool) {
	margin := func(t float64) float64 {
		b.solver.At(t, b.scratch)
		return b.one(&w.limits, byLaidViscosity, t, b.scratch)
	}
	for t, end := b.solver.Before(), b.solver.T(); t < end; {
		next := math.Min(w.limits.mandrel.next(t), end)
		high := margin(next)
		if low < 0 && high >= 0 {
			return ode.Root(margin, t, next, low, high), true
		}
		t, low = next, high
	}
	return 0, false
}

// stepWaiting follows a bath that is too thick from mixing: it thins, or
// another limit is crossed first and its life never began.
func (w *Watch) stepWaiting(b *Bath, before margins) {
	other, at := w.first(b, byLaidViscosity, before)
	thin, found := w.thinning(b, before[byBathViscosity])
	switch {
	case found && thin < at:
		b.solver.At(thin, b.scratch)
		w.thinned(thin, b.scratch[1])
		// The same step may hold the end as well.
		if again := w.thickensAfter(b, thin); again < at {
			other, at = byBathViscosity, again
		}
		if other >= 0 {
			w.end(limitNames[other], at)
		}
	case other >= 0:
		w.end(TooThick, at)
	}
}

// thinning finds when in the last step the bath falls below its viscosity limit.
func (w *Watch) thinning(b *Bath, before float64) (float64, bool) {
	now := w.now[byBathViscosity]
	if before == 0 && now < 0 { // resin mixed exactly at the limit
		return b.solver.Before(), true
	}
	below := func(t float64, y []float64) float64 { return -b.one(&w.limits, byBathViscosity, t, y) }
	return b.solver.Crossing(below, -before, -now, b.scratch)
}

// thickensAfter finds when a bath that thinned at thin is back at its viscosity
// limit before the end of the step, +Inf if it is not.
func (w *Watch) thickensAfter(b *Bath, thin float64) float64 {
	end := b.solver.T()
	now := w.now[byBathViscosity]
	if now < 0 {
		return math.Inf(1)
	}
	margin := func(t float64) float64 {
		b.solver.At(t, b.scratch)
		return b.one(&w.limits, byBathViscosity, t, b.scratch)
	}
	// At thin itself the margin is zero on its way down: begin a little later.
	low := thin + 1e-6*(end-thin)
	return ode.Root(margin, low, end, margin(low), now)
}

// Life is what the watch has seen, told from the elapsed time given on. A bath still too
// thick counts as one that never thins: follow it as far as it matters before asking.
func (w *Watch) Life(from quantity.Time) Life {
	l := Life{Left: quantity.Time(math.Inf(1)), EndsBy: w.endedBy}
	switch {
	case w.endedBy == TooThick || w.waiting:
		return Life{Left: 0, EndsBy: TooThick}
	case w.endedBy != NoLimit:
		l.Left = quantity.Time(w.endedAt) - from
	}
	if !math.IsNaN(w.thinnedAt) {
		l.TooThickFor = quantity.Time(w.thinnedAt) - from
		l.ThinAt = quantity.Temperature(w.thinK)
	}
	return l
}
