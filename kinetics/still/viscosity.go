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

// A pair is the two cells that decide (6) in a state: the hottest, and the one that has
// grown most. Finding the latter takes a logarithm or two a cell.
type pair struct{ warm, old int }

func (p *Pot) pair(y []float64) pair { return pair{p.system.hottest(y), p.thickest(y)} }

// logViscosity is (6) of the package comment.
func (p *Pot) logViscosity(y []float64) float64 { return p.logViscosityOf(p.pair(y), y) }

func (p *Pot) logViscosityOf(d pair, y []float64) float64 {
	return p.resin.Viscosity.LogFresh(y[p.system.n+d.warm]) + p.logGrowth(d.old, y)
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
	before, now := p.solver.YBefore(), p.solver.Y()
	was, is := p.pair(before), p.pair(now)
	return p.thickensBetween(log, p.logViscosityOf(was, before)-log, p.logViscosityOf(is, now)-log, was, is)
}

// thickensBetween is [Pot.thickens] for one who knows both ends of the step already.
func (p *Pot) thickensBetween(log, before, now float64, was, is pair) (float64, bool) {
	return p.rising(func(d pair) func(float64) float64 {
		return func(t float64) float64 { return p.flowAt(d.warm, t) + p.growthAt(d.old, t) - log }
	}, before, now, was, is)
}

// rising finds when in the last step a margin rises through zero that depends on
// the hottest and the thickest cell: those of the end or, if it is earlier, those
// of the start of the step.
func (p *Pot) rising(of func(pair) func(float64) float64, before, now float64, was, is pair) (at float64, found bool) {
	if !(before < 0) {
		return 0, false
	}
	s := p.solver
	at = math.Inf(1)
	for _, d := range []pair{is, was} {
		margin := of(d)
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
