package ensemble_test

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
)

// TestExtremes: whatever the likelihood and however few the members, there is
// an answer of finite, positive baths whose weights sum to their number, and
// the number effective is between 1 and all.
func TestExtremes(t *testing.T) {
	for name, f := range map[string]func(u [3]float64) float64{
		"needle":       newLinear(1e-6).logLike,
		"enormous":     func(u [3]float64) float64 { return -1e290 * (u[0] - 0.1) * (u[0] - 0.1) },
		"far out":      func(u [3]float64) float64 { return -1e4 * (u[0] - 9) * (u[0] - 9) },
		"one corner":   func(u [3]float64) float64 { return math.Log(max(0, u[0]-1.2) * max(0, u[1]-0.5)) },
		"rising":       func(u [3]float64) float64 { return 1e6 * u[1] },
		"two-humped":   func(u [3]float64) float64 { return -500 * math.Pow(u[0]*u[0]-1, 2) },
		"ruled by one": func(u [3]float64) float64 { return -1e8 * math.Abs(u[0]+u[1]-0.3) },
	} {
		for _, n := range []int{1, 2, 8, 60} {
			c, err := ensemble.Sharpen(usual, n, 1, likely(usual, f))
			if err != nil {
				t.Errorf("%s, n %d: %v", name, n, err)
				continue
			}
			sum := 0.0
			for _, m := range append([]ensemble.Member{c.Belief().Worst(1, ensemble.ShorterLife)}, c.Members...) {
				if x := m.Rate * m.Viscosity * m.Loss; !(m.Rate > 0 && m.Viscosity > 0 && m.Loss > 0) || math.IsInf(x, 0) {
					t.Fatalf("%s, n %d: %+v", name, n, m)
				}
			}
			for _, m := range c.Members {
				sum += m.Weight
			}
			all := float64(len(c.Members))
			if !(math.Abs(sum-all) <= 1e-9*all) { // rounding only
				t.Errorf("%s, n %d: weights sum to %g, want %g", name, n, sum, all)
			}
			if c.Explained && !(c.Effective >= 1-1e-9 && c.Effective <= all+1e-9) {
				t.Errorf("%s, n %d: %g of %g effective", name, n, c.Effective, all)
			}
			t.Logf("%s, n %d: %d rounds, %.3g effective", name, n, c.Rounds, c.Effective)
		}
	}
}
