package weighing

import (
	"fmt"
	"math"

	"potlife/schedule/weighing/budget"
)

// A Disagreement is two routes that differ by more than twice the uncertainty of
// their difference, or a result below zero by as much that cannot be negative.
type Disagreement struct {
	A, B       Route   // B is empty for a result that cannot be negative
	Of         string  // what they differ in
	Difference float64 // A less B, in SI
	U          float64 // standard uncertainty of the difference
	unit       func(float64) string
}

// String says it in a sentence.
func (d Disagreement) String() string {
	if d.B == "" {
		return fmt.Sprintf("the %s by %s is %s, less than none beyond its expanded uncertainty of %s", d.Of, d.A, d.unit(d.Difference), d.unit(2*d.U))
	}
	return fmt.Sprintf("%s and %s disagree in the %s by %s, beyond the expanded uncertainty of that difference, %s", d.A, d.B, d.Of, d.unit(math.Abs(d.Difference)), d.unit(2*d.U))
}

// A condition is a formula that is zero, or not below zero, if all inputs are
// right.
type condition struct {
	a, b Route
	of   string
	f    budget.Func
	unit func(float64) string
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
	pairs := func(ways []way, of string, unit func(float64) string) {
		for j := range ways {
			for i := range j {
				f, g := ways[i].byMass, ways[j].byMass
				add(i == 0, condition{a: ways[i].route, b: ways[j].route, of: of, unit: unit, f: func(x []float64) float64 { return f(x) - g(x) }})
			}
		}
	}
	ways := m.ways()
	if !m.given[part] {
		masses := []way{}
		for _, e := range m.estimates {
			masses = append(masses, way{e.route, e.mass})
		}
		pairs(masses, "mass of fibre", grams)
	}
	pairs(ways, "fibre fraction by mass", percent)
	if m.hasHung() && m.hasSized() {
		pairs([]way{{"air and water", hung}, {"volume", m.sized}}, "density", density)
	}
	for _, w := range ways {
		if m.hasVoids() && w.route != Thickness {
			add(false, condition{a: w.route, of: "void fraction", f: m.voids(w.byMass), unit: percent})
		}
		if m.given[mixed] && m.given[part] {
			add(false, condition{a: w.route, of: "resin unaccounted for", f: m.unaccountedBy(w.byMass), unit: grams})
		}
	}
	return list, chained
}

func (m *model) unaccountedBy(byMass budget.Func) budget.Func {
	return func(x []float64) float64 {
		return x[mixed] - (1-byMass(x))*m.laid(x) - x[leftOver] - x[cups] - x[rags] - x[drips]
	}
}

func density(si float64) string { return fmt.Sprintf("%.4g g/cm³", si/1000) }

// compare finds the disagreements and what would explain them.
func (r *Result) compare() {
	list, chained := r.model.conditions()
	r.Disagreements = []Disagreement{}
	for _, c := range list {
		if c.broken() {
			r.Disagreements = append(r.Disagreements, Disagreement{A: c.a, B: c.b, Of: c.of, Difference: c.out.Value, U: c.out.U, unit: c.unit})
		}
	}
	r.Suspects = []Suspect{}
	if len(r.Disagreements) > 0 {
		r.Suspects = r.model.suspects(list, chained)
	}
}
