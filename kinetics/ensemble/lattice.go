package ensemble

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// tooFew points lie on a few planes, whatever the lattice: they are better left to a
// Latin hypercube.
const tooFew = 32

// design returns n points of the unit cube of d dimensions, evenly spread.
func design(n, d int, source rand.Source) [][]float64 {
	if n >= tooFew {
		return lattice(n, d, source)
	}
	at := mat.NewDense(n, d, nil)
	samplemv.LatinHypercube{Q: distmv.NewUnitUniform(d, nil), Src: source}.Sample(at)
	points := make([][]float64, n)
	for i := range points {
		points[i] = at.RawRowView(i)
	}
	return points
}

// lattice returns n points of the unit cube of d dimensions by a Korobov lattice
// rule, moved and turned by chance: (9) of the package comment. Each coordinate has
// one point in each of n equal strata, as in a Latin hypercube; the points are evenly
// spread in the whole cube too.
func lattice(n, d int, source rand.Source) [][]float64 {
	random := rand.New(source)
	steps := generator(n, d)
	random.Shuffle(d, func(a, b int) { steps[a], steps[b] = steps[b], steps[a] })
	shift := make([]float64, d)
	for j := range shift {
		shift[j] = random.Float64()
		if random.IntN(2) == 1 {
			steps[j] = n - steps[j] // mirrored
		}
	}
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, d)
		for j := range d {
			points[i][j] = (float64(i*steps[j]%n) + shift[j]) / float64(n)
		}
	}
	return points
}

// mostTried generators are compared: the best of so many is about as good as the best
// of all.
const mostTried = 64

// generator is the vector 1, a, a², ... modulo n of the lattice that spreads n points
// most evenly.
func generator(n, d int) []int {
	best, least := powers(1, n, d), math.Inf(1)
	tried := 0
	stride := max(1, n/(2*mostTried))
	for a := 2; a <= n/2 && tried < mostTried; a += stride {
		for coprime(a, n) != 1 {
			a++
		}
		tried++
		steps := powers(a, n, d)
		if v := unevenness(steps, n); v < least {
			best, least = steps, v
		}
	}
	return best
}

func powers(a, n, d int) []int {
	steps := make([]int, d)
	steps[0] = 1
	for j := 1; j < d; j++ {
		steps[j] = steps[j-1] * a % n
	}
	return steps
}

func coprime(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// unevenness is the classical figure of merit P₂ of a lattice, by the second Bernoulli
// polynomial.
func unevenness(steps []int, n int) float64 {
	// A coordinate is a whole number of nths: n values of the polynomial are all.
	bernoulli := make([]float64, n)
	for k := range bernoulli {
		x := float64(k) / float64(n)
		bernoulli[k] = 1 + 2*math.Pi*math.Pi*(x*x-x+1.0/6)
	}
	at, sum := make([]int, len(steps)), 0.0
	for range n {
		product := 1.0
		for j, s := range steps {
			product *= bernoulli[at[j]]
			if at[j] += s; at[j] >= n {
				at[j] -= n
			}
		}
		sum += product
	}
	return sum/float64(n) - 1
}
