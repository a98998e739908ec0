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
// no more to grow, that with the highest degree of cure. Growth rises with that: where
// nothing else differs between cells, their logarithms need not be asked for.
func (p *Pot) thickest(y []float64) int {
	if p.alike && !p.system.phi {
		return p.mostCured(y)
	}
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
	return p.flow(d.warm, values(y)) + p.growth(d.old, values(y))
}

// A state gives component i.
type state func(i int) float64

func values(y []float64) state { return func(i int) float64 { return y[i] } }

// during is the state at a time of the last step.
func (p *Pot) during(t float64) state { return func(i int) float64 { return p.solver.Value(i, t) } }

// summit is the highest of a kind of component near a cell: of degrees of cure from
// component 0 on, of temperatures from n on, of φ from 2n on.
func (p *Pot) summit(cell, kind int, of state) float64 {
	return p.system.net.Summit(cell, func(c int) float64 { return of(kind + c) })
}

// growth is what cure has added to ln η near a cell that has grown most.
func (p *Pot) growth(cell int, of state) float64 {
	phi := 0.0
	if p.system.phi {
		phi = p.summit(cell, 2*p.system.n, of)
	}
	return p.resin.Viscosity.LogGrowth(p.summit(cell, 0, of), phi) + p.excess[cell]
}

// flow is the flow part of ln η near the hottest cell.
func (p *Pot) flow(cell int, of state) float64 {
	return p.resin.Viscosity.LogFresh(p.summit(cell, p.system.n, of))
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
		return func(t float64) float64 { return p.flow(d.warm, p.during(t)) + p.growth(d.old, p.during(t)) - log }
	}, before, now, was, is)
}

// rising finds when in the last step a margin rises through zero that depends on the
// hottest and the thickest cell. Where these are others at the end of the step than at its
// start, they are sought anew at each moment: with those of either end resin would count
// as colder, and so thicker, than its hottest place is.
func (p *Pot) rising(of func(pair) func(float64) float64, before, now float64, was, is pair) (at float64, found bool) {
	if !(before < 0) {
		return 0, false
	}
	s, margin := p.solver, of(is)
	if was != is {
		margin = func(t float64) float64 {
			s.At(t, p.scratch)
			return of(p.pair(p.scratch))(t)
		}
	}
	return ode.Rising(margin, s.Before(), s.T(), before, now)
}
