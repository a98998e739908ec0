package still

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Passages are what a body passes: its milestones, those of the cell that reaches
// them first, and when the last of its resin has gelled; +Inf when not reached.
type Passages struct {
	vessel.Milestones
	GelledThrough quantity.Time
}

// Milestones follows a pot that starts uniform, as [vessel.Bath.Milestones] does a
// stirred one. Doubled is told of the hottest cell, gel and peak of any.
func (p *Pot) Milestones(s vessel.State, from, horizon quantity.Time) (vessel.Milestones, error) {
	start, err := p.Uniform(s)
	if err != nil {
		return vessel.Milestones{}, err
	}
	all, err := p.Passages(start, from, horizon)
	return all.Milestones, err
}

// Passages follows a profile from elapsed time from over the horizon.
func (p *Pot) Passages(start Profile, from, horizon quantity.Time) (Passages, error) {
	if err := p.load(start); err != nil {
		return Passages{}, err
	}
	hottest := p.system.hottest(p.y)
	w := &milestoneWatch{
		doubled: math.NaN(), gel: math.NaN(), through: math.NaN(),
		twice: p.logViscosity(p.y) + math.Ln2,
		peak:  p.y[p.system.n+hottest], peakAt: float64(from),
	}
	if _, err := p.run(float64(from), float64(from+horizon), nil, w); err != nil {
		return Passages{}, err
	}
	since := func(t float64) quantity.Time {
		if math.IsNaN(t) {
			return quantity.Time(math.Inf(1))
		}
		return quantity.Time(t) - from
	}
	return Passages{
		Milestones: vessel.Milestones{
			Doubled: since(w.doubled), Gel: since(w.gel),
			Peak: quantity.Temperature(w.peak), PeakAt: since(w.peakAt),
		},
		GelledThrough: since(w.through),
	}, nil
}

// milestoneWatch sees a run for [Pot.Passages].
type milestoneWatch struct {
	twice         float64
	doubled       float64
	gel, through  float64
	peak, peakAt  float64
	alreadyGelled bool
}

func (w *milestoneWatch) begin(p *Pot, _ float64, y []float64) {
	w.alreadyGelled = p.foremost(y) >= p.resin.Gel
}

func (w *milestoneWatch) step(p *Pot) bool {
	if math.IsNaN(w.doubled) {
		if t, found := p.thickens(w.twice); found {
			w.doubled = t
		}
	}
	if math.IsNaN(w.gel) && !w.alreadyGelled {
		if t, found := p.firstGel(); found {
			w.gel = t
		}
	}
	if math.IsNaN(w.through) {
		if t, found := p.lastGel(); found {
			w.through = t
		}
	}
	if t, kelvin := p.warmest(); kelvin > w.peak {
		w.peak, w.peakAt = kelvin, t
	}
	return false
}

// TimeTo returns how long a pot that starts uniform stands from elapsed time from
// until end is first reached, +Inf when it is not within the horizon and 0 when
// it is passed already.
func (p *Pot) TimeTo(end vessel.EndPoint, s vessel.State, from, horizon quantity.Time) (quantity.Time, error) {
	times, err := p.TimesTo([]vessel.EndPoint{end}, s, from, horizon)
	if err != nil {
		return 0, err
	}
	return times[0], nil
}

// TimesTo is [Pot.TimeTo] for several ends, of one run that goes on until all are reached.
func (p *Pot) TimesTo(ends []vessel.EndPoint, s vessel.State, from, horizon quantity.Time) ([]quantity.Time, error) {
	start, err := p.Uniform(s)
	if err != nil {
		return nil, err
	}
	if err := p.load(start); err != nil {
		return nil, err
	}
	w := make(endWatches, len(ends))
	for i, end := range ends {
		w[i] = endWatch{end: end, at: math.NaN()}
		switch {
		case end.Doubled:
			w[i].log = s.LogViscosity(&p.resin) + math.Ln2
		case end.Viscosity > 0:
			w[i].log = math.Log(float64(end.Viscosity))
		}
	}
	if _, err := p.run(float64(from), float64(from+horizon), nil, w); err != nil {
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

func (w endWatches) begin(p *Pot, t float64, y []float64) {
	for i := range w {
		w[i].begin(p, t, y)
	}
}

func (w endWatches) step(p *Pot) bool {
	all := true
	for i := range w {
		all = w[i].step(p) && all
	}
	return all
}

// endWatch ends a run at a [vessel.EndPoint].
type endWatch struct {
	end     vessel.EndPoint
	log, at float64
}

// passed tells whether the end is reached in the state y.
func (w *endWatch) passed(p *Pot, y []float64) bool {
	switch {
	case w.end.Gel:
		return p.foremost(y) >= p.resin.Gel
	case w.end.Doubled || w.end.Viscosity > 0:
		return p.logViscosity(y) >= w.log
	}
	return y[p.system.n+p.system.hottest(y)] >= float64(w.end.Temperature)
}

func (w *endWatch) begin(p *Pot, t float64, y []float64) {
	if math.IsNaN(w.at) && w.passed(p, y) {
		w.at = t
	}
}

func (w *endWatch) step(p *Pot) bool {
	if !math.IsNaN(w.at) {
		return true
	}
	var t float64
	var found bool
	switch {
	case w.end.Gel:
		t, found = p.firstGel()
	case w.end.Doubled || w.end.Viscosity > 0:
		t, found = p.thickens(w.log)
	default:
		t, found = p.warmsTo(float64(w.end.Temperature))
	}
	if found {
		w.at = t
	}
	return found
}

// foremost is the highest α of all cells with resin.
func (p *Pot) foremost(y []float64) float64 { return y[p.mostCured(y)] }
