package ensemble

import (
	"math"
	"math/rand/v2"
	"sync"

	"gonum.org/v1/gonum/stat/distuv"
)

// places is how many a country has, a prime: a quantile over them errs by less than a
// hundredth of a standard deviation.
const places = 4093

// surveySeed is that of the places, which are the same for every ensemble.
const surveySeed = 1

// The places in the frame of what they are drawn from, by the number of unknowns. Nobody writes to
// them.
var (
	ofNormal  [mostUnknowns + 1]func() [][]float64
	ofStudent [mostUnknowns + 1]func() [][]float64
)

func init() {
	for d := range ofNormal {
		ofNormal[d] = sync.OnceValue(func() [][]float64 {
			return standardNormal(lattice(places, d, rand.NewPCG(surveySeed, 0)), d)
		})
		ofStudent[d] = sync.OnceValue(func() [][]float64 {
			return standardStudent(lattice(places, d+1, rand.NewPCG(surveySeed, 0)), d)
		})
	}
}

func normalPlaces(d int) [][]float64  { return ofNormal[d]() }
func studentPlaces(d int) [][]float64 { return ofStudent[d]() }

// standardNormal makes of points of the unit cube those of the standard normal distribution.
func standardNormal(points [][]float64, d int) [][]float64 {
	for _, x := range points {
		for j := range d {
			x[j] = distuv.UnitNormal.Quantile(x[j])
		}
	}
	return points
}

// standardStudent makes of points of the unit cube those of Student's t in d dimensions, with no
// mean and the identity for a scale. The last coordinate of a point is the χ² by which a t differs
// from a normal distribution.
func standardStudent(points [][]float64, d int) [][]float64 {
	for i, x := range points {
		stretch := math.Sqrt(freedom / chiQuantile(x[d]))
		for j := range d {
			x[j] = stretch * distuv.UnitNormal.Quantile(x[j])
		}
		points[i] = x[:d]
	}
	return points
}

// chiQuantile is the p-quantile of χ² with [freedom] degrees of freedom. For seven of them the
// distribution has a closed form,
//
//	F(x) = erf √(x/2) − e^(−x/2)·√(2x/π)·(1 + x/3 + x²/15)
//
// and Newton's steps from the guess of Wilson and Hilferty are ten times as fast as the inverse of
// the incomplete gamma function, which takes over far out, where F is what two near numbers differ by.
func chiQuantile(p float64) float64 {
	const far = 1e-3
	if p < far || p > 1-far {
		return distuv.ChiSquared{K: freedom}.Quantile(p)
	}
	const spread = 2.0 / (9 * freedom)
	x := freedom * math.Pow(1-spread+distuv.UnitNormal.Quantile(p)*math.Sqrt(spread), 3)
	for range 8 {
		density := math.Exp(-x/2) * math.Sqrt(2*x/math.Pi) * x * x / 30
		below := math.Erf(math.Sqrt(x/2)) - density*30/(x*x)*(1+x/3+x*x/15)
		step := (below - p) / density
		// What the second derivative does to a step, of which two then are enough.
		step /= 1 - step/2*((freedom/2.0-1)/x-0.5)
		if x -= step; math.Abs(step) < 1e-13*x {
			break
		}
	}
	return x
}
