package weighing

import (
	"math"

	"potlife/schedule/weighing/budget"
)

// A condition is a formula that is zero, or not below zero, if all inputs are
// right.
type condition struct {
	a, b Route
	of   Figure
	f    budget.Func
	out  budget.Output
}

func (c condition) oneSided() bool { return c.b == "" }

func (c condition) broken() bool {
	if c.oneSided() {
		return c.out.Value < -2*c.out.U
	}
	return math.Abs(c.out.Value) > 2*c.out.U
}

// conditions lists all pairs of routes to the same thing, and of the results that
// cannot be negative the voids and the resin unaccounted for, by each route. The
// pairs against the first route of a kind come with chained true: the others
// follow from them.
func (m *model) conditions() (list []condition, chained []bool) {
	add := func(link bool, c condition) {
		c.out = budget.Propagate(c.f, m.plain)
		list, chained = append(list, c), append(chained, link)
	}
	pairs := func(ways []way, of Figure) {
		for j := range ways {
			for i := range j {
				f, g := ways[i].byMass, ways[j].byMass
				add(i == 0, condition{a: ways[i].route, b: ways[j].route, of: of, f: func(x []float64) float64 { return f(x) - g(x) }})
			}
		}
	}
	ways := m.ways()
	if !m.given[part] {
		masses := []way{}
		for _, e := range m.estimates {
			masses = append(masses, way{e.route, e.mass})
		}
		pairs(masses, FibreMass)
	}
	pairs(ways, ByMassFraction)
	if m.hasHung() && m.hasSized() {
		pairs([]way{{"air and water", hung}, {"volume", m.sized}}, PieceDensity)
	}
	for _, w := range ways {
		if m.hasVoids() && w.route != Thickness {
			add(false, condition{a: w.route, of: VoidShare, f: m.voids(w.byMass)})
		}
		if m.given[mixed] && m.given[part] {
			add(false, condition{a: w.route, of: Unaccounted, f: m.unaccountedBy(w.byMass)})
		}
	}
	return list, chained
}

func (m *model) unaccountedBy(byMass budget.Func) budget.Func {
	return func(x []float64) float64 {
		return x[mixed] - (1-byMass(x))*m.laid(x) - x[leftOver] - x[cups] - x[rags] - x[drips]
	}
}

// compare finds the disagreements and what would explain them.
func (r *Result) compare() {
	list, chained := r.model.conditions()
	r.Disagreements = []Disagreement{}
	for _, c := range list {
		if c.broken() {
			r.Disagreements = append(r.Disagreements, Disagreement{A: c.a, B: c.b, Of: c.of, Difference: c.out.Value, U: c.out.U})
		}
	}
	r.Suspects = []Suspect{}
	if len(r.Disagreements) > 0 {
		r.Suspects = r.model.suspects(list, chained)
	}
}
