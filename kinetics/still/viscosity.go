package still

import (
	"math"

	"potlife/kinetics/ode"
)

// logGrowth is what cure has added to ln η in cell i of the state y.
func (p *Pot) logGrowth(i int, y []float64) float64 {
	phi := 0.0
	if p.system.phi {
		phi = y[2*p.system.n+i]
	}
	return p.resin.Viscosity.LogGrowth(y[i], phi) + p.excess[i]
}

// thickest is the cell with resin that has grown most; of gelled ones, which have
// no more to grow, that with the highest degree of cure.
func (p *Pot) thickest(y []float64) int {
	best, at := math.Inf(-1), 0
	for i, m := range p.system.net.Resin {
		if m > 0 {
			if growth := p.logGrowth(i, y); growth > best || growth == best && y[i] > y[at] {
				best, at = growth, i
			}
		}
	}
	return at
}

// logViscosity is (6) of the package comment.
func (p *Pot) logViscosity(y []float64) float64 {
	kelvin := y[p.system.n+p.system.hottest(y)]
	return p.resin.Viscosity.LogFresh(kelvin) + p.logGrowth(p.thickest(y), y)
}

// growthAt is [Pot.logGrowth] inside the last step.
func (p *Pot) growthAt(i int, t float64) float64 {
	phi := 0.0
	if p.system.phi {
		phi = p.solver.Value(2*p.system.n+i, t)
	}
	return p.resin.Viscosity.LogGrowth(p.solver.Value(i, t), phi) + p.excess[i]
}

// flowAt is the flow part of ln η of cell i inside the last step.
func (p *Pot) flowAt(i int, t float64) float64 {
	return p.resin.Viscosity.LogFresh(p.solver.Value(p.system.n+i, t))
}

// thickens finds when in the last step (6) reaches log.
func (p *Pot) thickens(log float64) (float64, bool) {
	s := p.solver
	return p.rising(func(warm, old int) func(float64) float64 {
		return func(t float64) float64 { return p.flowAt(warm, t) + p.growthAt(old, t) - log }
	}, p.logViscosity(s.YBefore())-log, p.logViscosity(s.Y())-log)
}

// rising finds when in the last step a margin rises through zero that depends on
// the hottest and the thickest cell: those of the end or, if it is earlier, those
// of the start of the step.
func (p *Pot) rising(of func(warm, old int) func(float64) float64, before, now float64) (at float64, found bool) {
	if !(before < 0) {
		return 0, false
	}
	s := p.solver
	at = math.Inf(1)
	for _, y := range [][]float64{s.Y(), s.YBefore()} {
		margin := of(p.system.hottest(y), p.thickest(y))
		low, high := margin(s.Before()), margin(s.T())
		if t, hit := ode.Rising(margin, s.Before(), s.T(), low, high); hit {
			at, found = math.Min(at, t), true
		}
	}
	if !found && now >= 0 {
		return s.T(), true
	}
	return at, found
}
