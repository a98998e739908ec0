package weighing

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/weighing/budget"
)

// An Estimate is a result in SI with its standard uncertainty to first order;
// twice that is the expanded uncertainty, about 95 times in 100.
type Estimate[T ~float64] struct {
	Value, U T
	Shares   []budget.Share // what makes the uncertainty, largest first
}

// Result is what the part was made of. What the inputs do not tell is nil.
type Result struct {
	From     Route // Scales, Coupon or Thickness: what all of this rests on
	ByMass   Estimate[quantity.Fraction]
	ByVolume *Estimate[quantity.Fraction] // of fibre and resin, voids left out

	Fibre, Resin         *Estimate[quantity.Mass] // in the part as weighed
	FibreLaid, ResinLaid *Estimate[quantity.Mass] // in the part and its trimmings

	Density *Estimate[quantity.Density] // of the part or of the piece
	// The shares by volume of the piece whose density is known, voids counted.
	FibreVolume, ResinVolume, Voids *Estimate[quantity.Fraction]

	Unaccounted *Estimate[quantity.Mass] // resin mixed and not found
	// PickUp is the resin left on the part for each gram of fibre over the
	// target's; what was wiped off on the way is not in it.
	PickUp  *Estimate[float64]
	Surplus *Estimate[quantity.Mass]   // resin laid beyond the target's; negative: missing
	Thicker *Estimate[quantity.Length] // wall beyond the target's; negative: thinner

	Routes        []RouteResult
	Disagreements []Disagreement
	// Suspects would each, alone, explain all disagreements; the smallest change
	// in units of its own uncertainty first. Empty: none would.
	Suspects []Suspect
	Verdict  *Verdict // nil without a target

	Assumed  []warning.Warning // defaults that were taken
	Warnings []warning.Warning

	model   *model
	outputs []output
}

// RouteResult is what one route says by itself.
type RouteResult struct {
	Route  Route
	Fibre  *Estimate[quantity.Mass] // routes to the fibre only
	ByMass *Estimate[quantity.Fraction]
}

// An output is one result with its formula, to be drawn again.
type output struct {
	name Figure
	f    budget.Func
	u    float64
}

func estimate[T ~float64](out budget.Output) *Estimate[T] {
	return &Estimate[T]{Value: T(out.Value), U: T(out.U), Shares: out.Shares}
}

// tell computes one result and keeps its formula for the draws.
func tell[T ~float64](r *Result, name Figure, f budget.Func) *Estimate[T] {
	out := r.model.output(f)
	r.outputs = append(r.outputs, output{name, f, out.U})
	return estimate[T](out)
}

// fill computes all results that the inputs allow.
func (r *Result) fill() {
	m := r.model
	r.From = m.answer
	r.ByMass = *tell[quantity.Fraction](r, ByMassFraction, m.byMass)
	if m.has(fibreDensity, resinDensity) {
		r.ByVolume = tell[quantity.Fraction](r, ByVolumeFraction, m.byVolume)
	}
	if m.hasMass() {
		r.Fibre = tell[quantity.Mass](r, PartFibre, func(x []float64) float64 { return m.byMass(x) * m.part(x) })
		r.Resin = tell[quantity.Mass](r, PartResin, func(x []float64) float64 { return (1 - m.byMass(x)) * m.part(x) })
		r.FibreLaid = tell[quantity.Mass](r, LaidFibre, m.fibreLaid)
		r.ResinLaid = tell[quantity.Mass](r, LaidResin, m.resinLaid)
		if m.given[mixed] {
			r.Unaccounted = tell[quantity.Mass](r, Unaccounted, m.unaccounted)
		}
	}
	if m.hasDensity() {
		r.Density = tell[quantity.Density](r, PieceDensity, m.density)
	}
	if m.hasVoids() {
		r.FibreVolume = tell[quantity.Fraction](r, FibreVolume, m.volumes(func(v Volumes) quantity.Fraction { return v.Fibre }))
		r.ResinVolume = tell[quantity.Fraction](r, ResinVolume, m.volumes(func(v Volumes) quantity.Fraction { return v.Resin }))
		r.Voids = tell[quantity.Fraction](r, VoidShare, m.voids(m.ofPiece()))
	}
	r.fillTarget()
	r.fillRoutes()
}

// fillTarget computes what is told against the target.
func (r *Result) fillTarget() {
	m := r.model
	if m.target.Value == 0 {
		return
	}
	r.PickUp = tell[float64](r, PickUp, m.pickUp)
	if m.hasMass() {
		r.Surplus = tell[quantity.Mass](r, Surplus, m.surplus)
	}
	if m.hasWall() {
		r.Thicker = tell[quantity.Length](r, Thicker, m.thicker)
	}
}

// fillRoutes lets each route speak for itself, without the doubts that other
// routes throw on it.
func (r *Result) fillRoutes() {
	m := r.model
	shares := map[Route]*Estimate[quantity.Fraction]{}
	for _, w := range m.ways() {
		shares[w.route] = estimate[quantity.Fraction](budget.Propagate(w.byMass, m.plain))
	}
	for _, e := range m.estimates {
		r.Routes = append(r.Routes, RouteResult{Route: e.route, Fibre: estimate[quantity.Mass](budget.Propagate(e.mass, m.plain)), ByMass: shares[e.route]})
	}
	for _, route := range []Route{Coupon, Thickness} {
		if shares[route] != nil {
			r.Routes = append(r.Routes, RouteResult{Route: route, ByMass: shares[route]})
		}
	}
}

// hasWall tells whether the wall's geometry is known.
func (m *model) hasWall() bool {
	return m.has(fibreDensity, resinDensity) && (m.given[thickness] || m.given[arealWeight] && m.plies > 0)
}

// thicker is the wall that resin off the target adds, (18).
func (m *model) thicker(x []float64) float64 {
	v, aim := m.byVolume(x), byVolume(m.targetByMass(x), x)
	fibreOnly := x[thickness] * v
	if m.given[arealWeight] && m.plies > 0 {
		fibreOnly = float64(m.plies) * x[arealWeight] / x[fibreDensity]
	}
	return fibreOnly * (1/v - 1/aim)
}
