package ensemble

import (
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// moments are the mean and the covariance of weighted points.
type moments struct {
	mean []float64
	cov  *mat.SymDense
	// mixed is the mean of [Member.Mixed], mixedSigma its standard deviation.
	mixed, mixedSigma float64
}

// newMoments needs weights that sum to 1.
func newMoments(points [][]float64, weights []float64) moments {
	d := len(points[0])
	m := moments{mean: make([]float64, d), cov: mat.NewSymDense(d, nil)}
	for i, u := range points {
		floats.AddScaled(m.mean, weights[i], u)
	}
	off := make([]float64, d)
	for i, u := range points {
		floats.SubTo(off, u, m.mean)
		m.cov.SymRankOne(m.cov, weights[i], mat.NewVecDense(d, off))
	}
	return m
}

// priorMoments are the exact ones of the logarithms before any reading.
func priorMoments(s Spread) moments {
	m := moments{mean: make([]float64, 3), cov: mat.NewSymDense(3, nil), mixedSigma: s.Mixed}
	for j, f := range [3]float64{s.Time, s.Viscosity, s.Loss} {
		m.cov.SetSym(j, j, Sigma(f)*Sigma(f))
	}
	return m
}
