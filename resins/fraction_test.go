package resins_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
	"potlife/resins"
)

// TestFractions checks w_f = V_f·ρ_f/(V_f·ρ_f + V_m·ρ_m) and its inverse to the
// digits printed (derived), and the pair of a glass laminate printed in J. Chem.
// Eng. Data 54 (2009) 2365: 28 % by volume is 47 % by mass. The paper's densities
// are not given; usual ones lie on either side of it.
func TestFractions(t *testing.T) {
	for _, c := range []struct {
		id, name     string
		fibre, resin quantity.Density
		volume       float64
		mass         string // the tolerance is half of its last digit
	}{
		{"carbon", "carbon of 1.80 in epoxy of 1.20", 1800, 1200, 0.60, "0.6923"},
		{"glass", "glass of 2.54 in epoxy of 1.20", 2540, 1200, 0.60, "0.7605"},
		// V_f is itself rounded here: w_f moves no faster than V_f.
		{"glass-back", "glass of 2.54 in epoxy of 1.20", 2540, 1200, 0.5243, "0.7000"},
		{"light-glass", "glass of 2.54 in resin of 1.15", 2540, 1150, 0.28, "0.462"},
		{"heavy-glass", "glass of 2.6 in resin of 1.1", 2600, 1100, 0.28, "0.479"},
	} {
		byMass := resins.FibreFraction{Value: quantity.Fraction(c.volume), Basis: resins.ByVolume}.OfMass(c.fibre, c.resin)
		outside.Check(t, outside.Row{
			ID: "mixture/by-mass/" + c.id, Subject: outside.Mixture, Mark: outside.Derived,
			What: c.name + " at " + strconv.FormatFloat(c.volume, 'g', -1, 64) + " by volume: fibre by mass", Printed: c.mass,
		}, float64(byMass))
	}
	glass := resins.FibreFraction{Value: 0.70, Basis: resins.ByMass}.OfVolume(2540, 1200)
	outside.Check(t, outside.Row{
		ID: "mixture/by-volume/glass", Subject: outside.Mixture, Mark: outside.Derived,
		What: "glass of 2.54 in epoxy of 1.20 at 0.70 by mass: fibre by volume", Printed: "0.5243",
	}, float64(glass))
}

// TestKawFractions: example 3.1 of A. K. Kaw, Mechanics of Composite Materials: glass of
// 2.5 in epoxy of 1.2 at 70 % by volume (question seen, results recalled).
func TestKawFractions(t *testing.T) {
	got := resins.FibreFraction{Value: 0.70, Basis: resins.ByVolume}.OfMass(2500, 1200)
	outside.Check(t, outside.Row{
		ID: "mixture/kaw/by-mass", Subject: outside.Mixture, Source: "kaw", Where: "example 3.1", Mark: outside.Memory,
		What: "glass of 2.5 in epoxy of 1.2 at 0.70 by volume: fibre by mass", Printed: "0.8294",
	}, float64(got))
}

// TestPaperPairIsBracketed: the paper's 47 % lies between what the two pairs of
// usual densities give.
func TestPaperPairIsBracketed(t *testing.T) {
	pair := resins.FibreFraction{Value: 0.28, Basis: resins.ByVolume}
	low, high := pair.OfMass(2540, 1150), pair.OfMass(2600, 1100)
	if !(low < 0.47 && 0.47 < high) {
		t.Errorf("%v to %v", low, high)
	}
	outside.Check(t, outside.Row{
		ID: "mixture/paper-pair", Subject: outside.Mixture, Source: "jced2009", Mark: outside.Seen,
		What: "glass in epoxy at 28 % by volume, with our usual 2.54 and 1.15: fibre by mass", Printed: "0.47",
		Within: 0.01, Why: "the paper gives no densities, and 2 % of either is 0.005; half a unit of the last digit",
	}, float64(low))
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

// TestFibreFractionMend: what a refusal tells to write is read.
func TestFibreFractionMend(t *testing.T) {
	for text, mend := range map[string]string{
		"0.7 by mass":    "write 70 % by mass",
		"0.5 by volume":  "write 50 % by volume",
		"62 by mass":     "write it like this: 62 % by mass",
		"62,5 % by mass": "write it like this: 62.5 % by mass",
	} {
		_, err := resins.ParseFibreFraction(text)
		var refusal *quantity.Error
		if !errors.As(err, &refusal) || refusal.Mend != mend {
			t.Errorf("%q: %v, want the mend %q", text, err, mend)
			continue
		}
		told := strings.TrimPrefix(strings.TrimPrefix(mend, "write it like this: "), "write ")
		if _, err := resins.ParseFibreFraction(told); err != nil {
			t.Errorf("%q: told to write %q, which is refused: %v", text, told, err)
		}
	}
}

// TestRefusalNamesTheText: a text that happens to stand among the words of what is wrong with it
// is shown all the same.
func TestRefusalNamesTheText(t *testing.T) {
	for _, text := range []string{"a", "basis", "fibre fraction", "62"} {
		if _, err := resins.ParseFibreFraction(text); err == nil || !strings.HasPrefix(err.Error(), text+": ") {
			t.Errorf("%q: %v", text, err)
		}
	}
	for text, want := range map[string]string{"250": "250 has no unit", "250.": "250. ends with a point", "x": "x does not begin with a number"} {
		if _, err := quantity.Parse[quantity.Mass](text); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v", text, err)
		}
	}
}
