package resins_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/resins"
)

func mixOf(hardener, resinDensity, hardenerDensity float64) resins.Mix {
	return resins.Mix{
		Resin:    resins.Part{ByMass: 100, Density: quantity.Density(resinDensity)},
		Hardener: resins.Part{ByMass: hardener, Density: quantity.Density(hardenerDensity)},
	}
}

// TestPartsByVolume: 100:27 by mass with 1.15 and 0.97 g/cm³ is 100:32 by volume
// (derived: parts by mass times ρ_r/ρ_h, 27·1.15/0.97 = 32.0103).
func TestPartsByVolume(t *testing.T) {
	outside.Check(t, outside.Row{
		ID: "mixture/parts-by-volume", Subject: outside.Mixture, Mark: outside.Derived,
		What: "100:27 by mass with 1.15 and 0.97 g/cm³: hardener to 100 of resin by volume", Printed: "32.0103",
	}, mixOf(27, 1150, 970).HardenerByVolume())
}

// TestRatioByVolumeInAFile: the same mix written by volume is weighed by mass.
func TestRatioByVolumeInAFile(t *testing.T) {
	r, err := resins.Load("../testdata/resins/club-epoxy-slow.yaml")
	if err != nil {
		t.Fatal(err)
	}
	// 32·0.97/1.15 = 26.9913 parts by mass (derived), digits as printed.
	if got := r.Mix.HardenerByMass(); !(math.Abs(got-26.9913) <= 5e-5) {
		t.Errorf("100 : %.5f by mass, want 26.9913", got)
	}
	// Backwards it is the ratio written, but for rounding.
	if got := r.Mix.HardenerByVolume(); !(math.Abs(got-32) <= 1e-12*32) {
		t.Errorf("100 : %g by volume, written 32", got)
	}
}

// TestMixDensity: 100:27 with 1.15 and 0.97 g/cm³ fill 86.9565 + 27.8351 cm³
// (derived), so 1.10635 g/cm³.
func TestMixDensity(t *testing.T) {
	got := mixOf(27, 1150, 970).Density().In("g/cm³")
	if !(math.Abs(got-127/(100/1.15+27/0.97)) <= 1e-12) {
		t.Errorf("%.6f g/cm³", got)
	}
	outside.Check(t, outside.Row{
		ID: "mixture/density", Subject: outside.Mixture, Mark: outside.Derived,
		What: "density of 100:27 with 1.15 and 0.97 g/cm³", Printed: "1.10635", Unit: "g/cm³",
	}, got)
}

// drawMix is any mix that a crew could have: 5 to 150 parts of hardener, the
// range from polyamines to anhydrides.
func drawMix(t *rapid.T) resins.Mix {
	return mixOf(rapid.Float64Range(5, 150).Draw(t, "hardener"),
		rapid.Float64Range(900, 1400).Draw(t, "resin density"), rapid.Float64Range(850, 1300).Draw(t, "hardener density"))
}

var scales = []quantity.Mass{1e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 5e-3}

// TestSplitLosesNothing: the parts of a split add up and hold the ratio, both to
// rounding errors.
func TestSplitLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		total := quantity.Mass(rapid.Float64Range(1e-3, 50).Draw(t, "mass"))
		resin, hardener := m.Split(total)
		if !(math.Abs(float64(resin+hardener-total)) <= 1e-15*float64(total)*4) {
			t.Errorf("%v and %v are not %v", resin, hardener, total)
		}
		if off := m.RatioError(resins.Pot{Resin: resin, Hardener: hardener}); !(math.Abs(off) <= 1e-12) {
			t.Errorf("the ratio is off by %g", off)
		}
	})
}

// TestWeigh: a pot is never below what was asked, in whole steps of the scale,
// its hardener within half a step of the ratio (so within what the scale itself
// can hide), and no more than three steps too large: one of resin rounded up
// with its hardener, one more where it fell short, and a half of rounding.
func TestWeigh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		step := rapid.SampledFrom(scales).Draw(t, "step")
		asked := quantity.Mass(rapid.Float64Range(100, 1e5).Draw(t, "steps")) * step
		if rapid.Bool().Draw(t, "whole") { // where rounding has to do nothing
			asked = quantity.Mass(math.Round(float64(asked/step))) * step
		}
		pot := m.Weigh(asked, step)
		// Sums of decimal steps err by some 1e-16 each; 1e-9 of a step is no
		// weight that a scale shows.
		const rounding = 1e-9
		if !(pot.Mass() >= asked*(1-1e-12)) {
			t.Errorf("%v asked, %v weighed", asked, pot.Mass())
		}
		for _, part := range []quantity.Mass{pot.Resin, pot.Hardener} {
			if n := float64(part / step); !(math.Abs(n-math.Round(n)) <= rounding*n) {
				t.Errorf("%v is not in steps of %v", part, step)
			}
		}
		if off := math.Abs(float64(pot.Hardener/step) - float64(pot.Resin/step)*m.HardenerByMass()/100); !(off <= 0.5+1e-6) {
			t.Errorf("hardener off by %g steps", off)
		}
		if off, bound := math.Abs(m.RatioError(pot)), m.ScaleError(asked, step); !(off <= bound*(1+1e-6)) {
			t.Errorf("ratio off by %g, the scale explains %g", off, bound)
		}
		if over := float64((pot.Mass() - asked) / step); !(over <= 2*(1+m.HardenerByMass()/100)+0.5+1e-6) {
			t.Errorf("%g steps too much", over)
		}
	})
}

// TestWeighFallsShort: 100.0 g of resin and 25.04 g of hardener on a scale of
// 0.1 g: rounding the hardener down would give 125.0 g of the 125.04 asked. The
// pot grows by a step of resin and keeps its ratio; a step of hardener alone
// would be 0.24 % off (derived).
func TestWeighFallsShort(t *testing.T) {
	m := mixOf(25.04, 1150, 970)
	pot := m.Weigh(0.12504, 1e-4)
	if r, h := pot.Resin.In("g"), pot.Hardener.In("g"); !(math.Abs(r-100.1) <= 1e-9 && math.Abs(h-25.1) <= 1e-9) {
		t.Errorf("weighed %g g and %g g, want 100.1 and 25.1", r, h)
	}
}

// TestSmallestPot: at the smallest pot the scale hides exactly the tolerance,
// and less in every larger one.
func TestSmallestPot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		step := rapid.SampledFrom(scales).Draw(t, "step")
		tolerance := rapid.Float64Range(0.002, 0.2).Draw(t, "tolerance")
		least := m.SmallestPot(step, quantity.Fraction(tolerance))
		if off := m.ScaleError(least, step)/tolerance - 1; !(math.Abs(off) <= 1e-12) { // rounding
			t.Errorf("a pot of %v hides %g of a tolerance of %g", least, m.ScaleError(least, step), tolerance)
		}
		if !(m.ScaleError(2*least, step) < tolerance) {
			t.Error("a larger pot hides more")
		}
	})
}
