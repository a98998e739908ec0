package vessel

import (
	"math"

	"potlife/kinetics/quantity"
)

// Milestones are what a resin left to itself passes; times from the start of
// the run, +Inf when not reached.
type Milestones struct {
	Doubled quantity.Time // the viscosity is twice that at the start
	Gel     quantity.Time
	Peak    quantity.Temperature // the highest temperature of the whole run
	PeakAt  quantity.Time
}

// An EndPoint is what a pot-life test waits for, one of the four.
type EndPoint struct {
	Gel         bool
	Doubled     bool
	Temperature quantity.Temperature // reached from below
	Viscosity   quantity.Viscosity   // reached from below
}

// Milestones follows s, standing, from elapsed time from over the horizon.
func (b *Bath) Milestones(s State, from, horizon quantity.Time) (Milestones, error) {
	m := &milestoneWatch{
		start: s.LogViscosity(&b.resin), gel: math.NaN(), doubled: math.NaN(),
		peak: float64(s.Temperature), peakAt: float64(from),
	}
	if _, err := b.run(&s, float64(from), float64(from+horizon), Tow{}, m); err != nil {
		return Milestones{}, err
	}
	since := func(t float64) quantity.Time {
		if math.IsNaN(t) {
			return quantity.Time(math.Inf(1))
		}
		return quantity.Time(t) - from
	}
	return Milestones{
		Doubled: since(m.doubled), Gel: since(m.gel),
		Peak: quantity.Temperature(m.peak), PeakAt: since(m.peakAt),
	}, nil
}

// milestoneWatch sees a run for [Bath.Milestones].
type milestoneWatch struct {
	start           float64
	doubled, gel    float64
	peak, peakAt    float64
	thickness, conv float64 // margins at the end of the last step
}

func (m *milestoneWatch) begin(b *Bath, _ float64, y []float64) {
	m.thickness = m.thick(b, y)
	m.conv = y[0] - b.resin.Gel
}

func (m *milestoneWatch) thick(b *Bath, y []float64) float64 {
	return b.resin.Viscosity.LogFresh(y[1]) + b.logGrowth(y) - m.start - math.Ln2
}

func (m *milestoneWatch) step(b *Bath) bool {
	s := b.solver
	before, beforeConv := m.thickness, m.conv
	m.thickness, m.conv = m.thick(b, s.Y()), s.Y()[0]-b.resin.Gel
	if math.IsNaN(m.doubled) {
		if t, found := s.Crossing(func(_ float64, y []float64) float64 { return m.thick(b, y) }, before, m.thickness, b.scratch); found {
			m.doubled = t
		}
	}
	if math.IsNaN(m.gel) {
		if t, found := s.Crossing(func(_ float64, y []float64) float64 { return y[0] - b.resin.Gel }, beforeConv, m.conv, b.scratch); found {
			m.gel = t
		}
	}
	if t, kelvin, found := s.Peak(1, b.scratch); found && kelvin > m.peak {
		m.peak, m.peakAt = kelvin, t
	}
	if kelvin := s.Y()[1]; kelvin > m.peak {
		m.peak, m.peakAt = kelvin, s.T()
	}
	return false
}

// TimeTo returns how long s stands from elapsed time from until end is first
// reached, +Inf when it is not within the horizon and 0 when it is passed
// already.
func (b *Bath) TimeTo(end EndPoint, s State, from, horizon quantity.Time) (quantity.Time, error) {
	times, err := b.TimesTo([]EndPoint{end}, s, from, horizon)
	if err != nil {
		return 0, err
	}
	return times[0], nil
}

// TimesTo is [Bath.TimeTo] for several ends, of one run that goes on until all are reached.
func (b *Bath) TimesTo(ends []EndPoint, s State, from, horizon quantity.Time) ([]quantity.Time, error) {
	w := make(endWatches, len(ends))
	for i, end := range ends {
		w[i] = endWatch{end: end, start: s.LogViscosity(&b.resin), at: math.NaN()}
	}
	if _, err := b.run(&s, float64(from), float64(from+horizon), Tow{}, w); err != nil {
		return nil, err
	}
	times := make([]quantity.Time, len(ends))
	for i := range w {
		times[i] = quantity.Time(w[i].at) - from
		if math.IsNaN(w[i].at) {
			times[i] = quantity.Time(math.Inf(1))
		}
	}
	return times, nil
}

// endWatches end a run when the last of them has seen its end.
type endWatches []endWatch

func (w endWatches) begin(b *Bath, t float64, y []float64) {
	for i := range w {
		w[i].begin(b, t, y)
	}
}

func (w endWatches) step(b *Bath) bool {
	all := true
	for i := range w {
		all = w[i].step(b) && all
	}
	return all
}

// endWatch ends a run at an [EndPoint].
type endWatch struct {
	end       EndPoint
	start, at float64
	now       float64
}

func (w *endWatch) margin(b *Bath, y []float64) float64 {
	thick := func() float64 { return b.resin.Viscosity.LogFresh(y[1]) + b.logGrowth(y) }
	switch {
	case w.end.Gel:
		return y[0] - b.resin.Gel
	case w.end.Doubled:
		return thick() - w.start - math.Ln2
	case w.end.Viscosity > 0:
		return thick() - math.Log(float64(w.end.Viscosity))
	}
	return y[1] - float64(w.end.Temperature)
}

func (w *endWatch) begin(b *Bath, t float64, y []float64) {
	w.now = w.margin(b, y)
	if math.IsNaN(w.at) && w.now >= 0 {
		w.at = t
	}
}

func (w *endWatch) step(b *Bath) bool {
	if !math.IsNaN(w.at) {
		return true
	}
	before := w.now
	w.now = w.margin(b, b.solver.Y())
	if t, found := b.solver.Crossing(func(_ float64, y []float64) float64 { return w.margin(b, y) }, before, w.now, b.scratch); found {
		w.at = t
	}
	return !math.IsNaN(w.at)
}
