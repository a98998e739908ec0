package weighing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"potlife/schedule/weighing/budget"
)

// A Suspect is one input that, changed alone, would reconcile all routes.
type Suspect struct {
	Input    string
	Change   float64 // to be added to the input, in SI
	InU      float64 // the same in units of its standard uncertainty, not negative
	key      key
	quantity string // how a person reads the change
}

// String names the input and how far it would be off.
func (s Suspect) String() string {
	way := "high"
	if s.Change > 0 {
		way = "low"
	}
	return fmt.Sprintf("%s, %s too %s (%.3g times its own uncertainty)", s.Input, s.quantity, way, s.InU)
}

// suspects lists the inputs that explain everything, the likeliest first: those
// for which (19) leaves no contradiction and which break nothing else. It asks
// the routes first and, if they leave nobody or agree, those results that are
// less than none as well.
func (m *model) suspects(list []condition, chained []bool) []Suspect {
	links, all, apart := []condition{}, []condition{}, false
	for i, c := range list {
		switch {
		case !c.oneSided():
			apart = apart || c.broken()
			if chained[i] {
				links, all = append(links, c), append(all, c)
			}
		case c.broken():
			all = append(all, c)
		}
	}
	if apart {
		if found := m.explain(links, list); len(found) > 0 {
			return found
		}
	}
	return m.explain(all, list)
}

// explain fits each input in turn to the links by (19).
func (m *model) explain(links, list []condition) []Suspect {
	parts := make([][]float64, len(links)) // contribution of each input to each link
	for k, c := range links {
		parts[k] = budget.Contributions(c.f, m.plain)
	}
	y := mat.NewVecDense(len(links), nil)
	covariance := mat.NewSymDense(len(links), nil)
	for k, c := range links {
		y.SetVec(k, c.out.Value)
		for l := range k + 1 {
			sum := 0.0
			for i := range parts[k] {
				sum += parts[k][i] * parts[l][i]
			}
			covariance.SetSym(k, l, sum)
		}
	}
	var factor mat.Cholesky
	if !factor.Factorize(covariance) {
		return []Suspect{}
	}
	found := []Suspect{}
	for k := part; k < toldDoubt; k++ {
		g := mat.NewVecDense(len(links), nil)
		for l := range links {
			g.SetVec(l, parts[l][k])
		}
		if steps, ok := fit(&factor, y, g); ok && m.mends(k, steps, list) {
			change := steps * m.plain[k].U
			found = append(found, Suspect{Input: k.String(), Change: change, InU: math.Abs(steps), key: k, quantity: k.amount(math.Abs(change))})
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

// fit returns by how many of its own uncertainties an input is off if it alone
// is to blame, and whether what it leaves is chance: within k = 2 of a normal
// distribution, 95.45 %.
func fit(factor *mat.Cholesky, y, g *mat.VecDense) (steps float64, ok bool) {
	var solved mat.VecDense
	if err := factor.SolveVecTo(&solved, y); err != nil {
		return 0, false
	}
	total, along := mat.Dot(y, &solved), mat.Dot(g, &solved)
	if err := factor.SolveVecTo(&solved, g); err != nil {
		return 0, false
	}
	own := mat.Dot(g, &solved)
	if !(own > 0) {
		return 0, false
	}
	if free := y.Len() - 1; free > 0 {
		chance := distuv.ChiSquared{K: float64(free)}.Quantile(0.9545)
		ok = total-along*along/own <= chance
	} else {
		ok = true
	}
	return -along / own, ok
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
		if value := c.f(x); !(value >= -2*c.out.U) && c.oneSided() {
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
