package still

import (
	"math"

	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Life returns the working life of a pot that starts uniform at s from elapsed
// time from on, as [vessel.Bath.Life] does for a stirred one: the first upward
// crossing of any limit after the pot was first within all of them. Viscosity is
// (6) of the package comment, that of the laid resin has the mandrel's
// temperature in it; temperature is the hottest cell's, gel the first cell's.
// Nothing is looked for beyond from + horizon.
func (p *Pot) Life(s vessel.State, from quantity.Time, l vessel.Limits, horizon quantity.Time) (vessel.Life, error) {
	start, err := p.Uniform(s)
	if err != nil {
		return vessel.Life{}, err
	}
	if err := p.load(start); err != nil {
		return vessel.Life{}, err
	}
	w := &lifeWatch{
		bath: math.Log(float64(l.BathViscosity)), laid: math.Log(float64(l.LaidViscosity)),
		kelvin: float64(l.BathTemperature), mandrel: l.Mandrel, thinnedAt: math.NaN(),
	}
	if _, err := p.run(float64(from), float64(from+horizon), kinksOf(l.Mandrel), w); err != nil {
		return vessel.Life{}, err
	}
	return w.life(from), nil
}

// lifeWatch sees a run for [Pot.Life].
type lifeWatch struct {
	bath, laid, kelvin float64
	mandrel            vessel.Series

	begun    bool
	waiting  bool    // too thick from mixing
	over     float64 // ln of how far above the bath viscosity limit
	laidOver float64
	decide   pair // in the state of both

	endedBy   vessel.Limit
	endedAt   float64
	thinnedAt float64 // NaN: never too thick, or not yet thin
	thinK     float64
}

// judge keeps the margins of both viscosities, negative within the limit.
func (w *lifeWatch) judge(p *Pot, t float64, y []float64) {
	w.decide = p.pair(y)
	w.over = p.logViscosityOf(w.decide, y) - w.bath
	w.laidOver = w.mandrelFlow(p, t) + p.growth(w.decide.old, values(y)) - w.laid
}

func (w *lifeWatch) mandrelFlow(p *Pot, t float64) float64 {
	return p.resin.Viscosity.LogFresh(float64(w.mandrel.At(quantity.Time(t))))
}

// begin judges the state that a life starts from.
func (w *lifeWatch) begin(p *Pot, t float64, y []float64) {
	w.judge(p, t, y)
	if w.begun {
		return
	}
	w.begun = true
	hot := y[p.system.n+p.system.hottest(y)]
	switch {
	case p.foremost(y) >= p.resin.Gel:
		w.end(vessel.Gel, t)
	case w.laidOver >= 0:
		w.end(vessel.LaidViscosity, t)
	case hot >= w.kelvin:
		w.end(vessel.BathTemperature, t)
	case w.over >= 0:
		w.waiting = true
	}
}

func (w *lifeWatch) end(by vessel.Limit, t float64) { w.endedBy, w.endedAt = by, t }

// step looks for the first limit crossed in the last step.
func (w *lifeWatch) step(p *Pot) bool {
	if w.endedBy != vessel.NoLimit {
		return true
	}
	s := p.solver
	over, laidOver, was := w.over, w.laidOver, w.decide
	w.judge(p, s.T(), s.Y())
	by, at := vessel.NoLimit, math.Inf(1)
	take := func(l vessel.Limit, t float64, found bool) {
		if found && t < at {
			by, at = l, t
		}
	}
	thin := math.Inf(1)
	if w.waiting {
		thin = w.thinning(p, over)
	} else {
		t, found := p.thickensBetween(w.bath, over, w.over, was, w.decide)
		take(vessel.BathViscosity, t, found)
	}
	t, found := p.rising(func(d pair) func(float64) float64 {
		return func(t float64) float64 { return w.mandrelFlow(p, t) + p.growth(d.old, p.during(t)) - w.laid }
	}, laidOver, w.laidOver, was, w.decide)
	take(vessel.LaidViscosity, t, found)
	t, found = p.warmsTo(w.kelvin)
	take(vessel.BathTemperature, t, found)
	t, found = p.firstGel()
	take(vessel.Gel, t, found)
	return w.settle(p, thin, by, at)
}

// settle takes what a step held: a pot that was too thick thins first, or never
// began to live.
func (w *lifeWatch) settle(p *Pot, thin float64, by vessel.Limit, at float64) bool {
	if w.waiting && thin < at {
		w.waiting, w.thinnedAt = false, thin
		w.thinK = p.solver.Value(p.system.n+p.system.hottest(p.solver.Y()), thin)
		if w.over >= 0 && by == vessel.NoLimit { // thin and thick again within one step
			by, at = vessel.BathViscosity, p.solver.T()
		}
	}
	if by == vessel.NoLimit {
		return false
	}
	if w.waiting {
		by = vessel.TooThick
	}
	w.end(by, at)
	return true
}

// thinning finds when in the last step a pot falls below its viscosity limit,
// +Inf if it does not.
func (w *lifeWatch) thinning(p *Pot, over float64) float64 {
	s := p.solver
	if over == 0 && w.over < 0 { // resin mixed exactly at the limit
		return s.Before()
	}
	below := func(t float64) float64 {
		return w.bath - p.flow(w.decide.warm, p.during(t)) - p.growth(w.decide.old, p.during(t))
	}
	if t, found := ode.Rising(below, s.Before(), s.T(), below(s.Before()), below(s.T())); found {
		return t
	}
	return math.Inf(1)
}

// life is what the watch has seen.
func (w *lifeWatch) life(from quantity.Time) vessel.Life {
	if w.endedBy == vessel.TooThick || w.waiting {
		return vessel.Life{EndsBy: vessel.TooThick}
	}
	l := vessel.Life{Left: quantity.Time(math.Inf(1)), EndsBy: w.endedBy}
	if w.endedBy != vessel.NoLimit {
		l.Left = quantity.Time(w.endedAt) - from
	}
	if !math.IsNaN(w.thinnedAt) {
		l.TooThickFor, l.ThinAt = quantity.Time(w.thinnedAt)-from, quantity.Temperature(w.thinK)
	}
	return l
}
