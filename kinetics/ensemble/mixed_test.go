package ensemble_test

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
)

// warm is a spread in which resin is mixed 2 K warmer or colder than expected.
var warm = ensemble.Spread{Time: 1.3, Viscosity: 1.2, Loss: 1.3, Mixed: 2}

// TestHowWarmItIsMixed: the temperature of the mix is drawn like the other unknowns, in
// kelvins, with a mean of none. Tolerance: a stratified sample of n strays by about σ/n.
func TestHowWarmItIsMixed(t *testing.T) {
	const n = 400
	mean, square := 0.0, 0.0
	for _, m := range ensemble.Draw(warm, n, 1) {
		mean += m.Mixed / n
		square += m.Mixed * m.Mixed / n
	}
	if sd := math.Sqrt(square - mean*mean); !(math.Abs(mean) <= 0.02) || !(math.Abs(sd-2) <= 0.02) {
		t.Errorf("mixed %.3f ± %.3f K warmer, want 0 ± 2", mean, sd)
	}
	warm := warm
	warm.Mixed = 0
	for _, m := range ensemble.Draw(warm, n, 1) {
		if m.Mixed != 0 {
			t.Fatalf("%g K though it is certain", m.Mixed)
		}
	}
}

// TestCertainMixChangesNothing: with a certain mix the worse bath is that of the other
// unknowns, and with an uncertain one it is the same, but mixed warmer.
func TestCertainMixChangesNothing(t *testing.T) {
	certain := warm
	certain.Mixed = 0
	for _, z := range []float64{0, 1.28, 2.326} {
		got, want := warm.Belief().Worst(z, ensemble.ShorterLife), certain.Belief().Worst(z, ensemble.ShorterLife)
		want.Mixed = z // half of 2 K
		if got != want || ensemble.Prior(warm, 40, 1).Belief().Worst(z, ensemble.ShorterLife) != want {
			t.Errorf("z %g: %+v, want %+v", z, got, want)
		}
	}
}

// TestReadingsOfTheMix: a thermometer in the bath that reads a sum of how warm it was mixed
// and of the rate narrows both as the posterior of a linear reading does in closed form. With
// x of the prior variances (4, σ²), a reading y = Mixed + 5·ln Rate + noise of 0.5 K gives the mean
// 4·y/V and the variance 4 − 16/V, V = 4 + 25σ² + 0.25. Tolerance: four standard errors of
// Effective equal members.
func TestReadingsOfTheMix(t *testing.T) {
	const y, noise = 2.0, 0.5
	sigma := ensemble.Sigma(warm.Time)
	v := 4 + 25*sigma*sigma + noise*noise
	mean, sd := 4*y/v, math.Sqrt(4-16/v)
	for _, n := range []int{120, 400} {
		c, err := ensemble.Sharpen(warm, n, 1, func(members []ensemble.Member) ([]float64, error) {
			l := make([]float64, len(members))
			for i, m := range members {
				d := (m.Mixed + 5*math.Log(m.Rate) - y) / noise
				l[i] = -d * d / 2
			}
			return l, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		values := make([]float64, len(c.Members))
		for i, m := range c.Members {
			values[i] = m.Mixed
		}
		se := 4 / math.Sqrt(c.Effective)
		for _, q := range []struct {
			what               string
			got, want, allowed float64
		}{
			{"median", c.Quantile(0.5, values), mean, 1.25 * se * sd}, // √(π/2) times that of a mean
			{"10 % quantile", c.Quantile(0.1, values), mean - 1.2816*sd, 1.71 * se * sd},
			{"worse bath", c.Belief().Worst(1.2816, ensemble.ShorterLife).Mixed, mean + 0.5*1.2816*sd, se * (1 + 0.5*1.2816/math.Sqrt2) * sd},
		} {
			if !(math.Abs(q.got-q.want) <= q.allowed) {
				t.Errorf("%d members: %s %.3f K, want %.3f ± %.3f", n, q.what, q.got, q.want, q.allowed)
			}
		}
	}
}
