package ensemble

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
)

// TestLatticeStrata: each coordinate has one point in each of n equal strata, for every
// seed, and no two points are one.
func TestLatticeStrata(t *testing.T) {
	for _, n := range []int{32, 60, 97, 240, 400} {
		for d := 1; d <= 4; d++ {
			for seed := range uint64(4) {
				points := lattice(n, d, rand.NewPCG(seed, 1))
				for j := range d {
					var at []int
					for _, x := range points {
						if !(x[j] >= 0 && x[j] < 1) {
							t.Fatalf("n %d: a coordinate of %g", n, x[j])
						}
						at = append(at, int(x[j]*float64(n)))
					}
					slices.Sort(at)
					for k := range at {
						if at[k] != k {
							t.Fatalf("n %d, d %d, seed %d: stratum %d of coordinate %d has not one point", n, d, seed, k, j)
						}
					}
				}
			}
		}
	}
}

// TestLatticeIsEven: the share of points in a ball, which no axis favours, is that of its
// volume to 0.015 with 400 points; of as many random ones it has a standard deviation of
// 0.022, so that twenty draws of them all but surely fail.
func TestLatticeIsEven(t *testing.T) {
	const n, radius = 400, 0.4
	want := 4.0 / 3 * math.Pi * radius * radius * radius
	for seed := range uint64(20) {
		inside := 0
		for _, x := range lattice(n, 3, rand.NewPCG(seed, 1)) {
			if math.Hypot(math.Hypot(x[0]-0.5, x[1]-0.5), x[2]-0.5) < radius {
				inside++
			}
		}
		if got := float64(inside) / n; !(math.Abs(got-want) <= 0.015) {
			t.Errorf("seed %d: %.4f of the points in %.4f of the cube", seed, got, want)
		}
	}
}

// TestSplineMeetsItsPoints: and a quadratic everywhere, to rounding; too few points, and
// points on a plane, make none.
func TestSplineMeetsItsPoints(t *testing.T) {
	points := lattice(60, 3, rand.NewPCG(1, 1))
	s, ok := newSpline(points)
	if !ok {
		t.Fatal("no spline")
	}
	quadratic := func(x []float64) float64 { return 1 + x[0] - 2*x[1]*x[2] + 3*x[2]*x[2] }
	values := make([]float64, len(points))
	for i, x := range points {
		values[i] = quadratic(x)
	}
	c := s.through(values)
	row := make([]float64, len(c))
	for _, x := range append([][]float64{{0.1, 0.9, 0.3}, {1.5, -1, 2}}, points...) {
		s.fill(row, x)
		sum := 0.0
		for k, v := range row {
			sum += v * c[k]
		}
		if !(math.Abs(sum-quadratic(x)) <= 1e-8) {
			t.Errorf("%g at %v, want %g", sum, x, quadratic(x))
		}
	}
	if _, ok := newSpline(points[:15]); ok {
		t.Error("15 points made a spline")
	}
	flat := make([][]float64, 60)
	for i, x := range points {
		flat[i] = []float64{x[0], x[1], 0}
	}
	if _, ok := newSpline(flat); ok {
		t.Error("points on a plane made a spline")
	}
}

// TestCubesOfDistances: the cubes of distances are those of all coordinates, in one to four dimensions.
func TestCubesOfDistances(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for d := 1; d <= mostUnknowns; d++ {
		x, flat, row := make([]float64, d), make([]float64, 7*d), make([]float64, 7)
		for k := range x {
			x[k] = r.NormFloat64()
		}
		for k := range flat {
			flat[k] = r.NormFloat64()
		}
		cubes(row, flat, x)
		for j, got := range row {
			want := math.Pow(floats.Distance(x, flat[j*d:(j+1)*d], 2), 3)
			if !(math.Abs(got-want) <= 1e-12*want) { // some rounding
				t.Errorf("%d dimensions: %g, want %g", d, got, want)
			}
		}
	}
}

// TestQuantilesInFourDimensions: with every size of an ensemble the tenth of a linear answer of four
// unknowns is that of its normal distribution, within 3 % of the standard deviation: the spline has
// such an answer, and is asked at 4093 points.
func TestQuantilesInFourDimensions(t *testing.T) {
	spread := Spread{Time: 1.2, Viscosity: 1.2, Loss: 1.3, Mixed: 2}
	sigmas := spread.sigmas()
	weights := []float64{1, 0.5, -0.3, 0.05}
	sigma := 0.0
	for j, w := range weights {
		sigma = math.Hypot(sigma, w*sigmas[j])
	}
	for n := 60; n <= 400; n += 10 {
		c := Prior(spread, n, 1)
		answers := make([]float64, n)
		for i, m := range c.Members {
			u := m.unknowns()
			answers[i] = floats.Dot(weights, u[:])
		}
		if got := c.Quantile(0.1, answers); !(math.Abs(got+1.2816*sigma) <= 0.03*sigma) {
			t.Errorf("%d members: %.4f, want %.4f ± %.4f", n, got, -1.2816*sigma, 0.03*sigma)
		}
	}
}

// TestWarmerIsOneInTen: with the mix a member is as bad as one in ten, or worse, whatever it counts for.
func TestWarmerIsOneInTen(t *testing.T) {
	const z = 1.2816
	for _, spread := range []Spread{{Time: 1.6, Viscosity: 1, Loss: 1.3, Mixed: 2}, {Time: 1.15, Viscosity: 1, Loss: 1.3, Mixed: 2}, {Time: 1.05, Viscosity: 1, Loss: 1.05, Mixed: 2}, {Time: 1, Viscosity: 1, Loss: 1, Mixed: 2}} {
		for _, perKelvin := range []float64{0.02, 0.05, 0.1} {
			b := spread.Belief()
			m := b.Warmer(b.Worst(z, ShorterLife), z, perKelvin, ShorterLife)
			logs := m.logs()
			others := math.Hypot(Sigma(spread.Time), 0.3*Sigma(spread.Loss))
			bad, want := floats.Dot(ShorterLife[:], logs[:])+perKelvin*m.Mixed, z*math.Hypot(others, perKelvin*spread.Mixed)
			if !(bad >= want*(1-1e-9)) || !(bad <= want+z*max(others, perKelvin*spread.Mixed)) {
				t.Errorf("%+v, %g per K: %.4f, one in ten %.4f", spread, perKelvin, bad, want)
			}
		}
	}
}
