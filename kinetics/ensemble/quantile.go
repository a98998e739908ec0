package ensemble

import (
	"math"
	"sort"

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
	order := make([]int, len(values))
	total := 0.0
	for i, v := range values {
		if math.IsNaN(v) {
			return math.NaN()
		}
		order[i] = i
		total += weights[i]
	}
	if len(values) == 0 || !(total > 0) {
		return math.NaN()
	}
	sort.SliceStable(order, func(a, b int) bool { return values[order[a]] < values[order[b]] })
	x, w := make([]float64, len(values)), make([]float64, len(values))
	for i, from := range order {
		x[i], w[i] = values[from], weights[from]
	}
	if math.IsInf(x[len(x)-1], 1) {
		// Interpolation next to an infinity has no meaning.
		return stat.Quantile(p, stat.Empirical, x, w)
	}
	return stat.Quantile(p, stat.LinInterp, x, w)
}
