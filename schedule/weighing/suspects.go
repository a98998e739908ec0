package weighing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"potlife/schedule/weighing/budget"
)

// A Suspect is one input that, changed alone, would reconcile all routes.
type Suspect struct {
	Input  string
	Change float64 // to be added to the input, in SI
	InU    float64 // the same in units of its standard uncertainty, not negative
	amount string  // the change as a person writes it, without its sign
}

// String names the input and how far it would be off.
func (s Suspect) String() string {
	way := "high"
	if s.Change > 0 {
		way = "low"
	}
	return fmt.Sprintf("%s, %s too %s (%.3g times its own uncertainty)", s.Input, s.amount, way, s.InU)
}

// suspects lists the inputs that explain everything, the likeliest first: those
// for which (19) leaves no contradiction and which break nothing else. It asks
// the routes first and, if they leave nobody or agree, those results that are
// less than none as well.
func (m *model) suspects(list []condition, chained []bool) []Suspect {
	links, apart := []condition{}, false
	for i, c := range list {
		apart = apart || c.broken() && !c.oneSided()
		if chained[i] {
			links = append(links, c)
		}
	}
	if apart {
		if found := m.explain(links, list); len(found) > 0 {
			return found
		}
	}
	return m.explain(append(links, worst(list)...), list)
}

// worst picks the most broken of the results that are less than none, one of a
// kind: the other routes' follow from it and from what the routes differ by.
func worst(list []condition) []condition {
	picked := []condition{}
	for _, c := range list {
		if !c.oneSided() || !c.broken() {
			continue
		}
		at := slices.IndexFunc(picked, func(p condition) bool { return p.of == c.of })
		switch {
		case at < 0:
			picked = append(picked, c)
		case c.out.Value/c.out.U < picked[at].out.Value/picked[at].out.U:
			picked[at] = c
		}
	}
	return picked
}

// explain fits each input in turn to the links by (19).
func (m *model) explain(links, list []condition) []Suspect {
	covariance, ok := m.covariance(links)
	if !ok {
		return []Suspect{}
	}
	found := []Suspect{}
	for k := part; k < toldDoubt; k++ {
		if steps, ok := m.fit(k, links, covariance); ok && m.mends(k, steps, list) {
			change := steps * m.plain[k].U
			found = append(found, Suspect{Input: k.String(), Change: change, InU: math.Abs(steps), amount: k.amount(math.Abs(change))})
		}
	}
	slices.SortStableFunc(found, func(a, b Suspect) int {
		if math.Abs(a.InU-b.InU) <= tied*a.InU {
			return 0
		}
		return cmp.Compare(a.InU, b.InU)
	})
	return found
}

// tied is the relative difference below which two inputs explain as well.
const tied = 1e-6

// covariance is that of the links, factorised; ok is false if one of them
// follows from the others.
func (m *model) covariance(links []condition) (factor *mat.Cholesky, ok bool) {
	parts := make([][]float64, len(links))
	for k, c := range links {
		parts[k] = budget.Contributions(c.f, m.plain)
	}
	covariance := mat.NewSymDense(len(links), nil)
	for k := range parts {
		for l := range k + 1 {
			covariance.SetSym(k, l, floats.Dot(parts[k], parts[l]))
		}
	}
	factor = &mat.Cholesky{}
	return factor, factor.Factorize(covariance)
}

// rounds of (19), each at the place that the one before led to: the densities
// are in denominators.
const rounds = 8

// fit returns by how many of its own uncertainties an input is off if it alone
// is to blame, and whether what that leaves is chance: within k = 2 of a normal
// distribution, 95.45 %.
func (m *model) fit(k key, links []condition, covariance *mat.Cholesky) (steps float64, ok bool) {
	u := m.plain[k].U
	if u == 0 {
		return 0, false
	}
	x := slices.Clone(m.values)
	y, g := mat.NewVecDense(len(links), nil), mat.NewVecDense(len(links), nil)
	var solved mat.VecDense
	for range rounds {
		for l, c := range links {
			g.SetVec(l, slope(c.f, x, k, u))
			y.SetVec(l, c.f(x))
		}
		if covariance.SolveVecTo(&solved, g) != nil {
			return 0, false
		}
		own := mat.Dot(g, &solved)
		if !(own > 0) {
			return 0, false
		}
		steps -= mat.Dot(y, &solved) / own
		x[k] = m.values[k] + steps*u
	}
	for l, c := range links {
		y.SetVec(l, c.f(x))
	}
	if covariance.SolveVecTo(&solved, y) != nil {
		return 0, false
	}
	left := mat.Dot(y, &solved)
	if free := float64(len(links) - 1); free > 0 {
		return steps, left <= distuv.ChiSquared{K: free}.Quantile(0.9545)
	}
	return steps, left <= 1e-6 // one link is met, where it can be
}

// slope is what one uncertainty of an input adds to f.
func slope(f budget.Func, x []float64, k key, u float64) float64 {
	at := x[k]
	x[k] = at + u
	above := f(x)
	x[k] = at - u
	below := f(x)
	x[k] = at
	return (above - below) / 2
}

// mends tells whether an input so many uncertainties off is itself possible and
// leaves no result below none.
func (m *model) mends(k key, steps float64, list []condition) bool {
	x := slices.Clone(m.values)
	x[k] += steps * m.plain[k].U
	if !(x[k] >= 0) {
		return false
	}
	for _, c := range list {
		if c.oneSided() && !(c.f(x) >= -2*c.out.U) {
			return false
		}
	}
	return true
}

// blame says which input would explain the disagreements.
func (r *Result) blame() string {
	if len(r.Suspects) == 0 {
		return "no single input explains this: weigh again, one after another"
	}
	best := []string{}
	for _, s := range r.Suspects {
		if s.InU <= r.Suspects[0].InU*(1+tied) {
			best = append(best, s.String())
		}
	}
	sentence := "one wrong input would explain this, best of all " + strings.Join(best, ", or ")
	if len(r.Suspects) > len(best) {
		sentence += "; others could: a third route would tell"
	}
	return sentence
}

// amount writes a change of an input for a person.
func (k key) amount(si float64) string {
	switch k {
	case tow:
		return fmt.Sprintf("%.4g m", si)
	case tex:
		return fmt.Sprintf("%.3g tex", si*1e6)
	case fibreDensity, resinDensity:
		return density(si)
	case volume:
		return Volume(si).String()
	case arealWeight:
		return ArealWeight(si).String()
	case thickness:
		return fmt.Sprintf("%.3g mm", si*1000)
	case waterTemperature:
		return fmt.Sprintf("%.3g K", si)
	}
	return grams(si)
}
