package ensemble_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"potlife/kinetics/ensemble"
)

// Linear readings of a normal prior with normal noise have a normal posterior,
// known exactly (Gelman et al., Bayesian Data Analysis, ch. 3 and 14, from
// memory): precision I + AᵀA/s², mean precision⁻¹·Aᵀy/s².
type linear struct {
	a     *mat.Dense
	y     []float64
	noise float64
}

func newLinear(noise float64) linear {
	return linear{mat.NewDense(2, 3, []float64{1, 0.5, 0.2, 0.3, 1, -0.3}), []float64{0.8, -0.5}, noise}
}

func (l linear) logLike(u [3]float64) float64 {
	sum := 0.0
	for i, y := range l.y {
		d := (y - mat.Dot(l.a.RowView(i), mat.NewVecDense(3, u[:]))) / l.noise
		sum -= d * d / 2
	}
	return sum
}

func (l linear) posterior(t *testing.T) (mean *mat.VecDense, cov *mat.SymDense) {
	var precision, aa mat.SymDense
	aa.SymOuterK(1/(l.noise*l.noise), l.a.T())
	precision.AddSym(&aa, mat.NewDiagDense(3, []float64{1, 1, 1}))
	var chol mat.Cholesky
	if !chol.Factorize(&precision) {
		t.Fatal("no posterior")
	}
	mean, cov = mat.NewVecDense(3, nil), mat.NewSymDense(3, nil)
	mean.MulVec(l.a.T(), mat.NewVecDense(2, l.y))
	mean.ScaleVec(1/(l.noise*l.noise), mean)
	if err := chol.SolveVecTo(mean, mean); err != nil {
		t.Fatal(err)
	}
	if err := chol.InverseTo(cov); err != nil {
		t.Fatal(err)
	}
	return mean, cov
}

// TestConjugate: mean, covariance, a 10 % quantile and the worse bath against
// the exact posterior. Tolerances are four standard errors of Effective equal
// members: of a mean σ/√N, of a covariance at most √2·σσ'/√N, of the quantile
// √(0.1·0.9/N)·σ/φ(1.28) = 1.71·σ/√N.
func TestConjugate(t *testing.T) {
	for _, noise := range []float64{1, 0.3, 1.0 / 50} {
		for _, n := range []int{60, 240} {
			t.Run(fmt.Sprintf("noise %.3g, n %d", noise, n), func(t *testing.T) {
				l := newLinear(noise)
				c, err := ensemble.Sharpen(usual, n, 2, likely(usual, l.logLike))
				if err != nil {
					t.Fatal(err)
				}
				if !(c.Effective >= float64(n)/3) {
					t.Errorf("%g effective members", c.Effective)
				}
				compare(t, l, c)
			})
		}
	}
}

func compare(t *testing.T, l linear, c *ensemble.Cloud) {
	mean, cov := l.posterior(t)
	se := 4 / math.Sqrt(c.Effective)
	sd := func(j int) float64 { return math.Sqrt(cov.At(j, j)) }
	near := func(what string, got, want, tol float64) {
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s: %g, want %g ± %g", what, got, want, tol)
		}
	}
	points := mat.NewDense(len(c.Members), 3, nil)
	weights := make([]float64, len(c.Members))
	for i, m := range c.Members {
		u := standard(usual, m)
		points.SetRow(i, u[:])
		weights[i] = m.Weight
	}
	var got mat.SymDense
	stat.CovarianceMatrix(&got, points, weights)
	for j := range 3 {
		near(fmt.Sprintf("mean %d", j), stat.Mean(mat.Col(nil, j, points), weights), mean.AtVec(j), se*sd(j))
		for k := j; k < 3; k++ {
			near(fmt.Sprintf("covariance %d, %d", j, k), got.At(j, k), cov.At(j, k), se*math.Sqrt2*sd(j)*sd(k))
		}
	}
	// What shortens a life, in standardised unknowns.
	g := mat.NewVecDense(3, []float64{ensemble.Sigma(usual.Time), 0.5 * ensemble.Sigma(usual.Viscosity), -0.3 * ensemble.Sigma(usual.Loss)})
	center, width := mat.Dot(g, mean), math.Sqrt(mat.Inner(g, cov, g))
	bad := func(u [3]float64) float64 { return mat.Dot(g, mat.NewVecDense(3, u[:])) }
	values, _ := valuesOf(usual, c, bad)
	near("10 % quantile", c.Quantile(0.1, values), center-1.2816*width, 1.71*se*width)
	near("badness of the worse bath", bad(standard(usual, c.Belief().Worst(1.5, ensemble.ShorterLife))), center+1.5*width, se*(1+1.5/math.Sqrt2)*width)
}

// TestSharpCaseIsSharp: the sharpest case is 30 times narrower than the prior
// in two directions, which belong to no one unknown.
func TestSharpCaseIsSharp(t *testing.T) {
	_, cov := newLinear(1.0 / 50).posterior(t)
	var eigen mat.EigenSym
	if !eigen.Factorize(cov, false) {
		t.Fatal("no eigenvalues")
	}
	if v := eigen.Values(nil); !(v[1] <= 1.0/900) {
		t.Errorf("variances %v, want two below 1/900", v)
	}
}

// TestQuadraticTakesTwoRounds: a log-likelihood that is a quadratic is found
// exactly from the first round, so the second is drawn from the posterior
// itself but for its tails; also from 8 members as soon as there are more of
// them than twice a quadratic's 10 coefficients.
func TestQuadraticTakesTwoRounds(t *testing.T) {
	for _, c := range []struct{ n, most int }{{8, 4}, {60, 2}, {120, 2}, {240, 2}} {
		for seed := range uint64(20) {
			cloud, err := ensemble.Sharpen(usual, c.n, seed, likely(usual, newLinear(1.0/40).logLike))
			if err != nil {
				t.Fatal(err)
			}
			if cloud.Rounds > c.most || !(cloud.Effective >= float64(c.n)/3) {
				t.Errorf("n %d, seed %d: %g effective members after %d rounds, want a third after %d", c.n, seed, cloud.Effective, cloud.Rounds, c.most)
			}
		}
	}
}

func TestSharpenIsReproducible(t *testing.T) {
	sharpen := func(seed uint64) *ensemble.Cloud {
		c, err := ensemble.Sharpen(usual, 60, seed, likely(usual, newLinear(0.1).logLike))
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	a, b, other := sharpen(4), sharpen(4), sharpen(5)
	if a.Rounds < 2 || a.Effective != b.Effective || len(a.Members) != len(b.Members) {
		t.Fatalf("%d rounds, %g and %g effective members", a.Rounds, a.Effective, b.Effective)
	}
	for i := range a.Members {
		if a.Members[i] != b.Members[i] {
			t.Fatalf("member %d differs for the same seed", i)
		}
	}
	if a.Effective == other.Effective {
		t.Error("another seed gave the same cloud")
	}
}

func BenchmarkSharpen(b *testing.B) {
	curved := func(u [3]float64) float64 {
		d, e := (math.Exp(0.3*(u[0]-0.5*u[1]))-1.2)*40, (0.3*u[0]+u[1]+0.3*u[2]+0.5)*40
		return -(d*d + e*e) / 2
	}
	for name, f := range map[string]func([3]float64) float64{"linear": newLinear(1.0 / 50).logLike, "curved": curved} {
		for _, n := range []int{60, 120, 240} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				rounds, effective, seed := 0, 0.0, uint64(0)
				b.ReportAllocs()
				for b.Loop() {
					c, err := ensemble.Sharpen(usual, n, seed, likely(usual, f))
					if err != nil {
						b.Fatal(err)
					}
					rounds, effective, seed = rounds+c.Rounds, effective+c.Effective, seed+1
				}
				b.ReportMetric(float64(rounds)/float64(seed), "rounds")
				b.ReportMetric(effective/float64(seed), "effective")
			})
		}
	}
}
