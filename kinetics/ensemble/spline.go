package ensemble

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A spline goes through values at scattered points, (10) of the package comment: the
// cubes of the distances from the points, and a quadratic. It is as smooth as the values
// allow and needs no grid.
type spline struct {
	points [][]float64
	lu     mat.LU
	count  int // of unknowns
}

// pointsPerCoefficient is how many points a spline needs for each coefficient of its
// quadratic.
const pointsPerCoefficient = 2

// mostKnots bounds the work, which grows with their cube: a quantile of more members
// stands without a spline. Four times the members of an answer still have one, so that
// what its figures are compared with is known better than they are.
const mostKnots = 1600

// newSpline is false where the points do not determine one: too few, or on one plane; and
// where they are too many.
func newSpline(points [][]float64) (*spline, bool) {
	n := len(points)
	if n == 0 || n < pointsPerCoefficient*coefficients(len(points[0])) || n > mostKnots {
		return nil, false
	}
	tail := coefficients(len(points[0]))
	s := &spline{points: points, count: n + tail}
	a := mat.NewDense(s.count, s.count, nil)
	for i := range points {
		s.fill(a.RawRowView(i), points[i])
		for k := range tail {
			a.Set(n+k, i, a.At(i, n+k))
		}
	}
	s.lu.Factorize(a)
	return s, s.lu.Cond() < worstCondition
}

// worstCondition leaves a spline four digits of its values.
const worstCondition = 1e12

// fill writes what multiplies the unknowns at x.
func (s *spline) fill(row, x []float64) {
	for j, p := range s.points {
		square := 0.0
		for k := range x {
			square += (x[k] - p[k]) * (x[k] - p[k])
		}
		row[j] = square * math.Sqrt(square)
	}
	fill(row[len(s.points):], x, 1)
}

// through returns the unknowns of the spline through values, one for each point.
func (s *spline) through(values []float64) (*mat.VecDense, bool) {
	right, c := mat.NewVecDense(s.count, nil), mat.NewVecDense(s.count, nil)
	copy(right.RawVector().Data, values)
	return c, s.lu.SolveVecTo(c, false, right) == nil
}
