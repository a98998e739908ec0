package ensemble

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// effective is the number of equal weights that would estimate as well as
// these, (5) of the package comment; weights sum to 1.
func effective(weights []float64) float64 {
	squares := floats.Dot(weights, weights)
	if !(squares > 0) {
		return 0
	}
	return 1 / squares
}

// normalised returns the weights of the given logarithms, with sum 1.
func normalised(logs []float64) []float64 {
	top := floats.Max(logs)
	w := make([]float64, len(logs))
	for i, l := range logs {
		w[i] = math.Exp(l - top)
	}
	floats.Scale(1/floats.Sum(w), w)
	return w
}

// temper returns the largest exponent β ≤ 1 of the likelihood that leaves at
// least enough effective members, with the weights it gives: (6) of the
// package comment. Where the members with any likelihood are too few, β is 0
// and they count alike.
func temper(logBase, logLike []float64, enough float64) (beta float64, weights []float64) {
	at := func(beta float64) []float64 {
		logs := make([]float64, len(logBase))
		for i, l := range logLike {
			logs[i] = logBase[i] + beta*l
			if math.IsInf(l, -1) {
				logs[i] = l // 0·∞ is no number
			}
		}
		return normalised(logs)
	}
	if w := at(1); effective(w) >= enough {
		return 1, w
	}
	// The effective number falls as β grows from 0, apart from ripples that do
	// no harm: any β with enough members will do. It may be very small, since a
	// sharp log-likelihood spans many powers of ten; so halve its logarithm.
	low, high := math.Log(1e-15), 0.0
	for range 50 {
		mid := (low + high) / 2
		if effective(at(math.Exp(mid))) >= enough {
			low = mid
		} else {
			high = mid
		}
	}
	beta = math.Exp(low)
	w := at(beta)
	if effective(w) < enough {
		return 0, at(0)
	}
	return beta, w
}
