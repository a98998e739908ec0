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
	if tow.Draw > 0 {
		drawn := t + math.Max(0, float64(s.Mass-lowest))/tow.Draw
		var err error
		if t, err = b.run(&s, t, math.Min(end, drawn), tow, w); err != nil {
			return Life{}, err
		}
		tow.Draw = 0
	}
	if !w.Ended() && t < end {
		if _, err := b.run(&s, t, end, tow, w); err != nil {
			return Life{}, err
		}
	}
	return w.life(from), nil
}

// A Watch follows a bath through pours, winding and standing and keeps the
// moment at which its working life ends.
type Watch struct {
	bath   *Bath
	limits measured
	began  bool
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
	case w.inside || w.waiting:
		// A pour or a kink: the state may have jumped.
		if w.inside && over >= 0 {
			w.end(limitNames[over], t)
		} else if w.waiting && over < 0 {
			w.thinned(t, y[1])
		}
	case over < 0:
		w.inside = true
	case w.now[byBathViscosity] >= 0 && w.now[byLaidViscosity] < 0 && w.now[byBathTemperature] < 0 && w.now[byGel] < 0:
		w.waiting = true
	default:
		for i := byLaidViscosity; i < limitCount; i++ {
			if w.now[i] >= 0 {
				w.end(limitNames[i], t)
				return
			}
		}
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
		return w.Ended()
	}
	first, at := -1, math.Inf(1)
	for i := range limitCount {
		if t, found := w.crossing(b, i, before[i]); found && t < at {
			first, at = i, t
		}
	}
	if first >= 0 {
		w.end(limitNames[first], at)
	}
	return w.Ended()
}

// crossing looks for the limit i in the last step.
func (w *Watch) crossing(b *Bath, i int, before float64) (float64, bool) {
	// Far below and not a fast climb: no evaluation inside the step.
	if w.now[i] < 0 && before < 0 && calm(i, before, w.now[i]) {
		return 0, false
	}
	margin := func(t float64, y []float64) float64 { return b.one(&w.limits, i, t, y) }
	return b.solver.Crossing(margin, before, w.now[i], b.scratch)
}

// calm tells that a margin cannot have reached zero inside a step that resolves
// the solution: conversion never falls, and the others are further below zero
// than they moved in the whole step.
func calm(i int, before, now float64) bool {
	if i == byGel {
		return true
	}
	return math.Max(before, now) < -2*math.Abs(now-before)-1e-3
}

// stepWaiting follows a bath that is too thick from mixing: it thins, or
// another limit is crossed first and its life never began.
func (w *Watch) stepWaiting(b *Bath, before margins) {
	at := math.Inf(1)
	for i := byLaidViscosity; i < limitCount; i++ {
		if t, found := w.crossing(b, i, before[i]); found && t < at {
			at = t
		}
	}
	below := func(t float64, y []float64) float64 { return -b.one(&w.limits, byBathViscosity, t, y) }
	thin, found := b.solver.Crossing(below, -before[byBathViscosity], -w.now[byBathViscosity], b.scratch)
	switch {
	case found && thin < at:
		b.solver.At(thin, b.scratch)
		w.thinned(thin, b.scratch[1])
		// The same step may hold the end as well.
		if w.now.worst() >= 0 {
			w.endAfter(b, thin)
		}
	case !math.IsInf(at, 1):
		w.end(TooThick, at)
	}
}

// endAfter finds the first limit crossed between t and the end of the step.
func (w *Watch) endAfter(b *Bath, t float64) {
	first, at := -1, math.Inf(1)
	for i, now := range w.now {
		if now < 0 {
			continue
		}
		margin := func(t float64) float64 {
			b.solver.At(t, b.scratch)
			return b.one(&w.limits, i, t, b.scratch)
		}
		if i == byBathViscosity {
			// At t itself this margin is zero, on its way down.
			at, first = b.solver.T(), i
			continue
		}
		low := margin(t)
		if low >= 0 {
			continue
		}
		if root := ode.Root(margin, t, b.solver.T(), low, now); root < at {
			first, at = i, root
		}
	}
	if first >= 0 {
		w.end(limitNames[first], at)
	}
}

// life turns what was seen since from into a Life.
func (w *Watch) life(from quantity.Time) Life {
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
