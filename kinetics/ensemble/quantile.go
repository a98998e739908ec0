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
