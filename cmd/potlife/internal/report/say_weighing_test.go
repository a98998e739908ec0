package report

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// TestVerdictSaid: the verdict has its figures, what would help only where it cannot be told,
// and never a word of strength.
func TestVerdictSaid(t *testing.T) {
	for _, c := range []struct {
		fibre, u    quantity.Mass
		word        string
		cost, helps string
	}{
		{0.62, 0.002, "ON TARGET: 62.0 % ± 0.4 % fibre by mass against 62.0 % ± 2.0 %.", "much", ""},
		{0.66, 0.002, "DRY: 66.0 % ± 0.4 %", "g of resin too little, a wall ", ""},
		{0.55, 0.002, "RICH: 55.0 % ± 0.4 %", "112.9 ± 6.5 g of resin too much, a wall 0.36 ± ", ""},
		{0.66, 0.00001, "DRY: 66.000 % ± 0.002 %", "64.52 ± 0.03 g", ""},
		{0.66, 0.000001, "DRY: 66.000 % ± under 0.001 %", "g of resin too little", ""},
		{0.62, 0.0101, "CANNOT TELL: 62.0 % ± 2.0 %", "much", "the doubt is wider than the band: weigh or measure fibre better"},
	} {
		r, err := weighing.Weigh(weighing.Input{
			Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Within(c.fibre, c.u),
			FibreDensity: weighing.Of(quantity.Density(1800)), ResinDensity: weighing.Of(quantity.Density(1200)),
			Plies: 8, ArealWeight: weighing.Of(quantity.ArealWeight(0.2667)),
			Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, Scale: 1e-6,
		})
		if err != nil {
			t.Fatal(err)
		}
		w := &Weigh{answer: &scales.Answer{Result: r}}
		lines := w.headline()
		if len(lines) != 2 || !strings.HasPrefix(lines[0], c.word) || !strings.Contains(lines[1], c.cost) {
			t.Errorf("%v: %q", c.fibre, lines)
		}
		all := strings.Join(lines, " ")
		if strings.Contains(all, "strong") || strings.Contains(all, "strength") {
			t.Errorf("claims strength: %s", all)
		}
		if helps := strings.Contains(all, "better"); helps != (c.helps != "") || !strings.Contains(all, c.helps) {
			t.Errorf("%v: %s", c.fibre, all)
		}
	}
}

// TestMisfitsSaid: figures and inputs are told in the units of a workshop.
func TestMisfitsSaid(t *testing.T) {
	for _, c := range []struct {
		d    weighing.Disagreement
		want string
	}{
		{
			weighing.Disagreement{A: weighing.Tow, B: weighing.Spool, Of: weighing.FibreMass, Difference: -0.05, U: 0.006},
			"tow and spool disagree in the mass of fibre by 50 g, beyond the expanded uncertainty of that difference, 12 g",
		},
		{
			weighing.Disagreement{A: weighing.Tow, B: weighing.Coupon, Of: weighing.ByMassFraction, Difference: 0.031, U: 0.01},
			"tow and coupon disagree in the fibre fraction by mass by 3.1 %, beyond the expanded uncertainty of that difference, 2.0 %",
		},
		{
			weighing.Disagreement{A: "air and water", B: "volume", Of: weighing.PieceDensity, Difference: 120, U: 20},
			"air and water and volume disagree in the density by 0.12 g/cm³, beyond the expanded uncertainty of that difference, 0.04 g/cm³",
		},
		{
			weighing.Disagreement{A: weighing.Scales, Of: weighing.VoidShare, Difference: -0.05, U: 0.01},
			"the void fraction by scales is -5.0 %, less than none beyond its expanded uncertainty of 2.0 %",
		},
		{
			weighing.Disagreement{A: weighing.Scales, Of: weighing.Unaccounted, Difference: -0.05, U: 0.01},
			"the resin unaccounted for by scales is -50 g, less than none beyond its expanded uncertainty of 20 g",
		},
	} {
		if got := sentence(c.d); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	for _, c := range []struct {
		s    weighing.Suspect
		want string
	}{
		{weighing.Suspect{Input: "spool before", Change: -0.05, InU: 173.2}, "spool before, 50 g too high (173 times its own uncertainty)"},
		{weighing.Suspect{Input: "tow", Of: weighing.Length, Change: 3, InU: 2}, "tow, 3 m too low (2 times its own uncertainty)"},
		{weighing.Suspect{Input: "tex", Of: weighing.LinearDensity, Change: 8e-5, InU: 1200}, "tex, 80 tex too low (over 1000 times its own uncertainty)"},
		{weighing.Suspect{Input: "resin density", Of: weighing.Density, Change: -120, InU: 5}, "resin density, 0.12 g/cm³ too high (5 times its own uncertainty)"},
		{weighing.Suspect{Input: "volume", Of: weighing.Volume, Change: 5e-6, InU: 5}, "volume, 5 mL too low (5 times its own uncertainty)"},
		{weighing.Suspect{Input: "areal weight", Of: weighing.ArealWeight, Change: 0.02, InU: 5}, "areal weight, 20 g/m² too low (5 times its own uncertainty)"},
		{weighing.Suspect{Input: "thickness", Of: weighing.WallThickness, Change: 1e-4, InU: 5}, "thickness, 0.1 mm too low (5 times its own uncertainty)"},
		{weighing.Suspect{Input: "water temperature", Of: weighing.TemperatureDifference, Change: 2, InU: 5}, "water temperature, 2 K too low (5 times its own uncertainty)"},
	} {
		if got := suspectWords(c.s); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
