package ensemble_test

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
)

// TestQuantilesStand: the quantiles of a value whose distribution is known do not depend on
// the seed: ln v is linear in the unknowns, so it is normal, and its quantile is that of the
// normal distribution, to a hundredth of a standard deviation, the places between the members
// being so many; the members alone err by ten times that. Where another limit cuts in just
// there, as baths may have it, and a third of the members never end, different seeds agree to
// two percent.
func TestQuantilesStand(t *testing.T) {
	linear := func(u [3]float64) float64 { return math.Exp(0.3*u[0] + 0.15*u[1] - 0.1*u[2]) }
	width := math.Sqrt(0.3*0.3 + 0.15*0.15 + 0.1*0.1)
	cut := func(u [3]float64) float64 {
		if u[0]+u[2] > 0.5 {
			return math.Inf(1)
		}
		return min(linear(u), 0.8*math.Exp(0.4*u[2]))
	}
	first := math.NaN()
	for seed := range uint64(12) {
		c := ensemble.Prior(usual, 240, seed)
		values, _ := valuesOf(usual, c, linear)
		for p, z := range map[float64]float64{0.1: -1.2815515655446004, 0.5: 0} {
			if got := math.Log(c.Quantile(p, values)); !(math.Abs(got-z*width) <= 1e-2*width) {
				t.Errorf("seed %d: ln of quantile %g is %.5f, want %.5f", seed, p, got, z*width)
			}
		}
		values, _ = valuesOf(usual, c, cut)
		got := c.Quantile(ensemble.SureQuantile, values)
		if math.IsNaN(first) {
			first = got
		}
		if !(math.Abs(got/first-1) <= 0.02) {
			t.Errorf("seed %d: %.5f, and %.5f with the first", seed, got, first)
		}
	}
}

// TestEvenByStandsForAll: a share of the members taken by a value is a share of the cloud.
func TestEvenByStandsForAll(t *testing.T) {
	linear := func(u [3]float64) float64 { return 0.3*u[0] + 0.15*u[1] - 0.1*u[2] }
	width := math.Sqrt(0.3*0.3 + 0.15*0.15 + 0.1*0.1)
	for seed := range uint64(6) {
		c := ensemble.Prior(usual, 240, seed)
		values, _ := valuesOf(usual, c, linear)
		below := 0
		for _, i := range c.EvenBy(100, values) {
			if values[i] < -1.2815515655446004*width {
				below++
			}
		}
		// Ten in a hundred, to the members beside the quantile.
		if below < 9 || below > 11 {
			t.Errorf("seed %d: %d of 100 below the 10 %% quantile", seed, below)
		}
	}
	c := ensemble.Prior(usual, 240, 1)
	values, _ := valuesOf(usual, c, linear)
	values[3] = math.Inf(1)
	if got := c.EvenBy(100, values); got != nil {
		t.Errorf("members by a value that is not finite: %v", got)
	}
}
