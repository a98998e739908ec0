package ensemble

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// The quantiles behind the two words a crew reads.
const (
	LikelyQuantile = 0.5
	SureQuantile   = 0.1
)

// Quantile returns the weighted p-quantile of values, which may hold +Inf. It
// is NaN for no values, for a NaN among them and for weights that sum to zero.
// The arguments are not changed.
func Quantile(p float64, values, weights []float64) float64 {
	o := ordered(values, weights)
	return o.quantile(p)
}

// An order holds values by size, with their weights.
type order struct {
	values, weights []float64
	meaningless     bool
}

func ordered(values, weights []float64) order {
	list, total := make([]weighed, len(values)), 0.0
	for i, v := range values {
		list[i] = weighed{v, weights[i]}
		total += weights[i]
	}
	if len(values) == 0 || !(total > 0) || slices.ContainsFunc(values, math.IsNaN) {
		return order{meaningless: true}
	}
	slices.SortStableFunc(list, func(a, b weighed) int { return cmp.Compare(a.value, b.value) })
	o := order{values: make([]float64, len(list)), weights: make([]float64, len(list))}
	for i, w := range list {
		o.values[i], o.weights[i] = w.value, w.weight
	}
	return o
}

// inner is the quantile, without the outermost.
func (o *order) inner(p float64) float64 {
	const outermost = 1e-3
	return o.quantile(min(max(p, outermost), 1-outermost))
}

// near is a quantile that knows more than the values, where it does not stray from theirs.
func (o *order) near(p, refined float64) float64 {
	low, high := o.inner(p-strays), o.inner(p+strays)
	if !(refined >= low && refined <= high) {
		return min(max(o.inner(p), low), high)
	}
	return refined
}

func (o *order) quantile(p float64) float64 {
	switch {
	case o.meaningless:
		return math.NaN()
	case math.IsInf(o.values[len(o.values)-1], 1):
		// Interpolation next to an infinity has no meaning.
		return stat.Quantile(p, stat.Empirical, o.values, o.weights)
	}
	return stat.Quantile(p, stat.LinInterp, o.values, o.weights)
}
