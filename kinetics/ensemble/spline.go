package ensemble

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// A spline goes through values at scattered points, (10) of the package comment: the
// cubes of the distances from the points, and a quadratic. It is as smooth as the values
// allow and needs no grid.
type spline struct {
	points [][]float64
	flat   []float64 // the same, one after another
	lu     blas64.General
	swaps  []int
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
	count := n + tail
	s := &spline{points: points, flat: slices.Concat(points...), lu: blas64.General{Rows: count, Cols: count, Stride: count, Data: make([]float64, count*count)}, swaps: make([]int, count)}
	for i := range points {
		row := s.lu.Data[i*count : (i+1)*count]
		for j := range i { // a distance is the same from both ends
			row[j] = s.lu.Data[j*count+i]
		}
		cubes(row[i:n], s.flat[i*len(points[i]):], points[i])
		fill(row[n:], points[i], 1)
		for k := range tail {
			s.lu.Data[(n+k)*count+i] = row[n+k]
		}
	}
	return s, s.factorise() < worstCondition
}

// factorise leaves the triangular factors in place of the matrix and returns its condition. The
// matrix package would do so too, but solves for one right side as for a matrix of them, ten times
// as slowly, and a spline is asked again and again.
func (s *spline) factorise() float64 {
	norm := lapack64.Lange(lapack.MaxRowSum, s.lu, nil)
	if !lapack64.Getrf(s.lu, s.swaps) {
		return math.Inf(1)
	}
	return norm * s.inverse()
}

// inverse estimates the norm of the matrix's inverse from below, by a climb to the right side that it
// makes the most of. The matrix is symmetric: its greatest sum of a row is that of a column.
func (s *spline) inverse() float64 {
	n := s.lu.Rows
	x, sign := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i] = 1 / float64(n)
	}
	most, last := 0.0, -1
	for range 5 { // two or three do
		y := s.solve(x)
		norm := 0.0
		for i, v := range y {
			norm += math.Abs(v)
			sign[i] = math.Copysign(1, v)
		}
		switch {
		case math.IsNaN(norm):
			return math.Inf(1)
		case norm <= most:
			return most
		}
		most = norm
		next := 0
		z := s.solve(sign)
		for i, v := range z {
			if math.Abs(v) > math.Abs(z[next]) {
				next = i
			}
		}
		if next == last {
			return most
		}
		clear(x)
		x[next], last = 1, next
	}
	return most
}

// worstCondition leaves a spline four digits of its values.
const worstCondition = 1e12

// fill writes what multiplies the unknowns at x.
func (s *spline) fill(row, x []float64) {
	cubes(row[:len(s.points)], s.flat, x)
	fill(row[len(s.points):], x, 1)
}

// cubes writes those of the distances of x from as many points, which lie one after another in flat.
func cubes(row, flat, x []float64) {
	if len(x) == 3 { // nearly always, and half of what a survey costs
		for j := range row {
			p := flat[:3]
			a, b, c := x[0]-p[0], x[1]-p[1], x[2]-p[2]
			square := a*a + b*b + c*c
			row[j] = square * math.Sqrt(square)
			flat = flat[3:]
		}
		return
	}
	for j := range row {
		square := 0.0
		for k := range x {
			d := x[k] - flat[j*len(x)+k]
			square += d * d
		}
		row[j] = square * math.Sqrt(square)
	}
}

// through returns the unknowns of the spline through values, one for each point: what
// multiplies the cubes, in the order of the points, and the quadratic.
func (s *spline) through(values []float64) []float64 { return s.solve(values) }

// solve returns the unknowns for a right side, the end of which may be left out where it is nothing.
func (s *spline) solve(right []float64) []float64 {
	c := make([]float64, s.lu.Rows)
	copy(c, right)
	for i, k := range s.swaps {
		c[i], c[k] = c[k], c[i]
	}
	x := blas64.Vector{N: len(c), Inc: 1, Data: c}
	factor := blas64.Triangular{N: len(c), Stride: s.lu.Stride, Data: s.lu.Data, Uplo: blas.Lower, Diag: blas.Unit}
	blas64.Trsv(blas.NoTrans, factor, x)
	factor.Uplo, factor.Diag = blas.Upper, blas.NonUnit
	blas64.Trsv(blas.NoTrans, factor, x)
	return c
}
