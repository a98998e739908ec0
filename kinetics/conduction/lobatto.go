package conduction

import (
	"math"
	"sync"
)

// A reference is a polynomial of one degree between −1 and 1: its nodes, their weights, and
// its first and second slope at each node, by its values at all.
type reference struct {
	at, weight  []float64
	slope, bend [][]float64
}

// references are kept by their degree: the cups of an ensemble all have the same few.
var references sync.Map

func referenceOf(degree int) *reference {
	if r, ok := references.Load(degree); ok {
		return r.(*reference)
	}
	r := &reference{bend: make([][]float64, degree+1)}
	r.at, r.weight = lobatto(degree)
	r.slope = slopes(r.at)
	for q := range r.bend {
		r.bend[q] = make([]float64, degree+1)
		for i := range r.at {
			for k := range r.at {
				r.bend[q][i] += r.slope[q][k] * r.slope[k][i]
			}
		}
	}
	references.Store(degree, r)
	return r
}

// lobatto are the nodes of a polynomial of a degree in −1 to 1, ends included, and the
// weights with which they integrate one of twice the degree less one exactly: the zeros of
// (1 − x²)·P', P being Legendre's polynomial.
func lobatto(degree int) (at, weight []float64) {
	n := degree + 1
	at, weight = make([]float64, n), make([]float64, n)
	for i := range at {
		// Newton's rule from Chebyshev's points; it doubles the digits each time.
		x := -math.Cos(math.Pi * float64(i) / float64(degree))
		p, below := legendre(degree, x)
		for range 8 {
			x -= (x*p - below) / (float64(n) * p)
			p, below = legendre(degree, x)
		}
		at[i], weight[i] = x, 2/(float64(degree*n)*p*p)
	}
	if degree%2 == 0 {
		at[degree/2] = 0
	}
	return at, weight
}

// legendre is the polynomial of a degree, 1 or more, and the one of the degree below.
func legendre(degree int, x float64) (p, below float64) {
	below, p = 1, x
	for k := 2; k <= degree; k++ {
		p, below = (float64(2*k-1)*x*p-float64(k-1)*below)/float64(k), p
	}
	return p, below
}

// slopes[q][i] is the slope at node q of the polynomial that is 1 at node i and 0 at all
// others.
func slopes(at []float64) [][]float64 {
	d := make([][]float64, len(at))
	for q := range d {
		d[q] = make([]float64, len(at))
		for i := range at {
			if i == q {
				continue
			}
			v := 1 / (at[i] - at[q])
			for k := range at {
				if k != i && k != q {
					v *= (at[q] - at[k]) / (at[i] - at[k])
				}
			}
			d[q][i] = v
			d[q][q] -= v // a constant has no slope
		}
	}
	return d
}
