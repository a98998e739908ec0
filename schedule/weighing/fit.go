package weighing

import (
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"potlife/schedule/weighing/budget"
)

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
