package ensemble

import (
	"math"

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

// The gradient of how much shorter a working life is in the logarithms of
// rate, viscosity and loss, roughly: rate counts in full, viscosity by half,
// loss by a third and the other way. It only aims the sure bath; the ensemble
// judges what it gives.
var shares = [3]float64{1, 0.5, -0.3}

// mixedShare is the same for a kelvin warmer when mixed, roughly: of 500 g in a tray a slow
// built-in system loses 2 % of its life, a quick one 5 %; of a quick cup it is 10 %.
const mixedShare = 0.05

// mixedPart is how many of its standard deviations warmer the worse bath was mixed, for each that
// it lies out in the other unknowns; from those it takes none, since how much a kelvin matters
// differs tenfold from a bath's life to what runs away. Of a sum of two independent parts with
// deviations 1 and r, z deviations are z·√(1 + r²) and the worse bath has z·(1 + r/2): as much
// where r is 4/3, and more, on the safe side, where the mix counts for less; for lives in baths
// r is 0.3 to 1.
const mixedPart = 0.5

// badSide is the bath z standard deviations on the bad side of the mean: of
// all baths that far out, the one with the shortest life in the direction of
// shares, (8) of the package comment. When it was mixed it was warmer, too, see mixedPart.
func (m moments) badSide(z float64) Member {
	pull := mat.NewVecDense(3, nil)
	g := mat.NewVecDense(3, shares[:])
	pull.MulVec(m.cov, g)
	logs := [3]float64(m.mean)
	if length := math.Sqrt(mat.Dot(g, pull)); length > 0 {
		for j := range logs {
			logs[j] += z * pull.AtVec(j) / length
		}
	}
	worse := fromLogs(logs)
	worse.Mixed = m.mixed + mixedPart*z*m.mixedSigma
	return worse
}
