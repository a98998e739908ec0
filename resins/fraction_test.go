package resins_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// TestFractions checks w_f = V_f·ρ_f/(V_f·ρ_f + V_m·ρ_m) and its inverse to the
// digits printed (derived), and the pair of a glass laminate printed in J. Chem.
// Eng. Data 54 (2009) 2365: 28 % by volume is 47 % by mass. The paper's densities
// are not given; usual ones lie on either side of it.
func TestFractions(t *testing.T) {
	for _, c := range []struct {
		name         string
		fibre, resin quantity.Density
		volume, mass float64
		tolerance    float64 // half the last digit printed
	}{
		{"carbon", 1800, 1200, 0.60, 0.6923, 5e-5},
		{"glass", 2540, 1200, 0.60, 0.7605, 5e-5},
		{"glass, from the mass", 2540, 1200, 0.5243, 0.70, 5e-5},
		{"the paper's pair, light glass in dense resin: 46.2", 2540, 1150, 0.28, 0.462, 5e-4},
		{"the paper's pair, heavy glass in light resin: 47.9", 2600, 1100, 0.28, 0.479, 5e-4},
	} {
		byMass := resins.FibreFraction{Value: quantity.Fraction(c.volume), Basis: resins.ByVolume}.OfMass(c.fibre, c.resin)
		// V_f is itself rounded in the third case: w_f moves no faster than V_f there.
		if !(math.Abs(float64(byMass)-c.mass) <= c.tolerance) {
			t.Errorf("%s: %.5f by mass, want %g", c.name, byMass, c.mass)
		}
	}
	glass := resins.FibreFraction{Value: 0.70, Basis: resins.ByMass}.OfVolume(2540, 1200)
	if !(math.Abs(float64(glass)-0.5243) <= 5e-5) {
		t.Errorf("70 %% by mass is %.5f by volume, want 0.5243", glass)
	}
}

// TestPaperPairIsBracketed: the paper's 47 % lies between what the two pairs of
// usual densities give.
func TestPaperPairIsBracketed(t *testing.T) {
	pair := resins.FibreFraction{Value: 0.28, Basis: resins.ByVolume}
	low, high := pair.OfMass(2540, 1150), pair.OfMass(2600, 1100)
	if !(low < 0.47 && 0.47 < high) {
		t.Errorf("%v to %v", low, high)
	}
}

// TestFractionsRoundTrip: by mass and back by volume is the same to 1e-12, some
// thousand rounding errors; a basis asked of its own kind changes nothing.
func TestFractionsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fibre := quantity.Density(rapid.Float64Range(900, 8000).Draw(t, "fibre"))
		resin := quantity.Density(rapid.Float64Range(900, 2000).Draw(t, "resin"))
		value := quantity.Fraction(rapid.Float64Range(0.01, 0.99).Draw(t, "value"))
		byVolume := resins.FibreFraction{Value: value, Basis: resins.ByVolume}
		byMass := resins.FibreFraction{Value: byVolume.OfMass(fibre, resin), Basis: resins.ByMass}
		if back := byMass.OfVolume(fibre, resin); !(math.Abs(float64(back-value)) <= 1e-12) {
			t.Errorf("%v by volume comes back as %v", value, back)
		}
		if byVolume.OfVolume(fibre, resin) != value || byMass.OfMass(fibre, resin) != byMass.Value {
			t.Error("a fraction changes on its own basis")
		}
		if fibre != resin && (fibre > resin) != (byMass.Value > value) {
			t.Errorf("fibre %v in resin %v: %v by volume, %v by mass", fibre, resin, value, byMass.Value)
		}
	})
}

// TestParseFibreFraction: a fraction always names its basis.
func TestParseFibreFraction(t *testing.T) {
	for text, want := range map[string]resins.FibreFraction{
		"62 % by mass":     {Value: 0.62, Basis: resins.ByMass},
		"62% by mass":      {Value: 0.62, Basis: resins.ByMass},
		" 50 %  by volume": {Value: 0.50, Basis: resins.ByVolume},
	} {
		got, err := resins.ParseFibreFraction(text)
		if err != nil || got.Basis != want.Basis || !(math.Abs(float64(got.Value-want.Value)) <= 1e-15) {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "62 %", "62", "by mass", "62 % by weight", "0 % by mass", "100 % by volume", "-5 % by mass", "NaN % by mass", "62 by mass"} {
		if got, err := resins.ParseFibreFraction(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}
