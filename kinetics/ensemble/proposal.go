package ensemble

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
)

const (
	// Degrees of freedom of a proposal's Student t distribution: tails heavy
	// enough for a posterior that is somewhat wider than was thought.
	freedom = 7
	// A proposal is made wider than the moments it rests on, since a narrow one
	// costs far more than a wide one.
	widerFit, widerCloud = 1.2, 1.6
)

// A proposal is a distribution to draw a round from.
type proposal struct {
	*distmv.StudentsT
	mean  []float64
	cov   *mat.SymDense
	frame *frame
}

func newProposal(mean []float64, cov *mat.SymDense) (*proposal, bool) {
	p := &proposal{mean: mean, cov: cov}
	var ok bool
	if p.StudentsT, ok = distmv.NewStudentsT(mean, cov, freedom, nil); !ok {
		return nil, false
	}
	p.frame, ok = newFrame(moments{mean: mean, cov: cov})
	return p, ok
}

// draw returns n points by a lattice, the last coordinate of which is
// the χ² that makes a t of a normal distribution.
func (p *proposal) draw(n int, source rand.Source) [][]float64 {
	d := len(p.mean)
	points := standardStudent(design(n, d+1, source), d)
	for i, x := range points {
		points[i] = p.frame.point(x)
	}
	return points
}

// shrunk adds to a covariance that rests on few effective members d + 1 more
// of the width that n members drawn with the last covariance can tell apart,
// so that it is positive definite however few they are.
func shrunk(m moments, members float64, last mat.Symmetric, n int) *mat.SymDense {
	d := float64(len(m.mean))
	cell := math.Pow(float64(n), -2/d)
	var a, b mat.SymDense
	a.ScaleSym(members/(members+d+1), m.cov)
	b.ScaleSym(cell*(d+1)/(members+d+1), last)
	a.AddSym(&a, &b)
	return &a
}
