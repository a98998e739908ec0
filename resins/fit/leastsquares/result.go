package leastsquares

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// RankTolerance is the singular value, over the largest, below which a direction
// counts as not told: differences are good to about the square of their step,
// which is 4e-11 for smooth residuals and more for simulated ones.
const RankTolerance = 1e-9

// A Result is where a search ended.
type Result struct {
	X            []float64
	Residuals    []float64
	SumOfSquares float64
	Converged    bool
	Iterations   int

	Jacobian   *mat.Dense // dr/dx at X
	Singular   []float64  // of the Jacobian in units of the scales, falling
	Rank       int        // singular values that count
	Covariance *mat.SymDense
}

// StandardErrors returns the standard deviations of the parameters when those of
// the residuals are not known but all the same: |r|²/(residuals − parameters)
// estimates their variance. NaN where there are no residuals to spare.
func (r *Result) StandardErrors() []float64 {
	spare := len(r.Residuals) - len(r.X)
	variance := math.NaN()
	if spare > 0 {
		variance = r.SumOfSquares / float64(spare)
	}
	errs := make([]float64, len(r.X))
	for i := range errs {
		errs[i] = math.Sqrt(r.Covariance.At(i, i) * variance)
	}
	return errs
}

func (s *search) result() (*Result, error) {
	n, m := len(s.x), len(s.r)
	scaled := mat.NewDense(m, n, nil)
	jacobian := mat.NewDense(m, n, nil)
	for i, column := range s.columns {
		scaled.SetCol(i, column)
		for k, v := range column {
			jacobian.Set(k, i, v/s.scale[i])
		}
	}
	var svd mat.SVD
	if !svd.Factorize(scaled, mat.SVDThin) {
		return nil, errors.New("the singular values of a Jacobian could not be found")
	}
	var v mat.Dense
	svd.VTo(&v)
	r := &Result{
		X: s.x, Residuals: s.r, SumOfSquares: dot(s.r, s.r), Converged: s.done,
		Iterations: s.iterations, Jacobian: jacobian, Singular: svd.Values(nil),
		Covariance: mat.NewSymDense(n, nil),
	}
	for r.Rank < n && r.Singular[r.Rank] > RankTolerance*r.Singular[0] {
		r.Rank++
	}
	for i := range n { // (4)
		for j := i; j < n; j++ {
			sum := 0.0
			for k := range r.Rank {
				sum += v.At(i, k) * v.At(j, k) / (r.Singular[k] * r.Singular[k])
			}
			r.Covariance.SetSym(i, j, sum*s.scale[i]*s.scale[j])
		}
	}
	return r, nil
}
