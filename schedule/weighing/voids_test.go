package weighing_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/schedule/weighing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.8g, want %g ± %.2g", what, got, want, tolerance)
	}
}

// TestVoids: ASTM D2734, T = 100/(R/D + r/d) and V = 100(T − M)/T (formula seen),
// for R 30, D 1.20, r 70, d 2.54, M 1.87: T 1.9026, V 1.715 %; by ASTM D3171
// method I (layout from memory) fibre 51.54, resin 46.75, voids 1.715 % (both
// examples derived). Tolerance: half of the last digit printed.
func TestVoids(t *testing.T) {
	const w, piece, fibre, resin = 0.70, 1870, 2540, 1200
	v := weighing.VolumesOf(w, piece, fibre, resin)
	const of = ", 70 % glass of 2.54 by mass in resin of 1.20"
	for _, c := range []struct {
		id, source, what, printed, unit string
		ours                            float64
	}{
		{"theoretical", "astmd2734", "theoretical density" + of, "1902.6", "kg/m³", float64(weighing.TheoreticalDensity(w, fibre, resin))},
		{"voids", "astmd2734", "voids of a piece of 1.87" + of, "0.01715", "", float64(weighing.VoidFraction(w, piece, fibre, resin))},
		{"fibre", "astmd3171", "fibre by volume of a piece of 1.87" + of, "0.5154", "", float64(v.Fibre)},
		{"resin", "astmd3171", "resin by volume of a piece of 1.87" + of, "0.4675", "", float64(v.Resin)},
		{"voids-by-volumes", "astmd3171", "voids by method I of a piece of 1.87" + of, "0.01715", "", float64(v.Voids)},
	} {
		outside.Check(t, outside.Row{
			ID: "mixture/voids/" + c.id, Subject: outside.Mixture, Source: c.source, Mark: outside.Derived,
			What: c.what, Printed: c.printed, Unit: c.unit,
		}, c.ours)
	}
}

// TestKawDensity: example 3.1 of A. K. Kaw, Mechanics of Composite Materials, from its own
// share by mass (question seen, results recalled).
func TestKawDensity(t *testing.T) {
	outside.Check(t, outside.Row{
		ID: "mixture/kaw/density", Subject: outside.Mixture, Source: "kaw", Where: "example 3.1", Mark: outside.Memory,
		What: "density of glass of 2.5 in epoxy of 1.2 at 0.8294 by mass", Printed: "2110", Unit: "kg/m³",
	}, float64(weighing.TheoreticalDensity(0.8294, 2500, 1200)))
}

// TestBothStandardsAgree: D2734 and D3171 method I are the same by algebra, voids
// below none included. 1 − V_v is their common part: 1e-12 of it is some thousand
// rounding errors.
func TestBothStandardsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := quantity.Fraction(rapid.Float64Range(0.01, 0.99).Draw(t, "w"))
		piece := quantity.Density(rapid.Float64Range(800, 9000).Draw(t, "piece"))
		fibre := quantity.Density(rapid.Float64Range(900, 9000).Draw(t, "fibre"))
		resin := quantity.Density(rapid.Float64Range(900, 2000).Draw(t, "resin"))
		a := weighing.VoidFraction(w, piece, fibre, resin)
		v := weighing.VolumesOf(w, piece, fibre, resin)
		if !(math.Abs(float64(a-v.Voids)) <= 1e-12*math.Max(1, math.Abs(1-float64(a)))) {
			t.Errorf("%v by D2734, %v by D3171", float64(a), float64(v.Voids))
		}
		if heavy := piece > weighing.TheoreticalDensity(w, fibre, resin); heavy != (a < 0) {
			t.Errorf("heavier than its parts: %v, voids %v", heavy, float64(a))
		}
	})
}

// TestNegativeVoids: they happen (NDT&E Int. 46 (2012) 122, seen) and are told.
func TestNegativeVoids(t *testing.T) {
	near(t, "voids", float64(weighing.VoidFraction(0.70, 1920, 2540, 1200)), 1-1920*(0.7/2540+0.3/1200), 1e-12) // rounding
	if v := weighing.VolumesOf(0.70, 1920, 2540, 1200); !(v.Voids < 0) {
		t.Errorf("voids %v", v.Voids)
	}
}

// TestWall: D3171 method II, 8 plies of 150 g/m² at 1.80 g/cm³ in 1.20 mm: V_f
// 0.5556; the cured ply at 0.60 is 0.1389 mm (seen). Four tows of 800 tex in a
// band of 12 mm at 1.80 and 0.60: 0.2469 mm (derived). Half of the last digit.
func TestWall(t *testing.T) {
	for _, c := range []struct {
		id, source, what, printed, unit string
		ours                            float64
	}{
		{"fibre", "astmd3171", "8 plies of 150 g/m² at 1.80 in 1.20 mm: fibre by volume, method II", "0.5556", "", float64(weighing.FibreByThickness(8, 0.150, 1800, 1.20e-3))},
		{"ply", "astmd3171", "a ply of 150 g/m² at 1.80 and 0.60 by volume", "0.1389", "mm", weighing.Wall(1, 0.150, 1800, 0.60).In("mm")},
		{"wound-ply", "", "a wound ply: 4 tows of 800 tex in 12 mm, 1.80, 0.60 by volume", "0.2469", "mm", weighing.Wall(1, weighing.PlyWeight(4, 800e-6, 12e-3), 1800, 0.60).In("mm")},
	} {
		outside.Check(t, outside.Row{
			ID: "mixture/wall/" + c.id, Subject: outside.Mixture, Source: c.source, Mark: outside.Derived,
			What: c.what, Printed: c.printed, Unit: c.unit,
		}, c.ours)
	}
}

// TestWallRoundTrip: (15) and its inverse.
func TestWallRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Fraction(rapid.Float64Range(0.05, 0.95).Draw(t, "V_f"))
		ply := quantity.ArealWeight(rapid.Float64Range(0.05, 2).Draw(t, "ply"))
		plies := rapid.IntRange(1, 100).Draw(t, "plies")
		if back := weighing.FibreByThickness(plies, ply, 1800, weighing.Wall(plies, ply, 1800, v)); !(math.Abs(float64(back/v)-1) <= 1e-12) { // rounding
			t.Errorf("%v comes back as %v", v, back)
		}
	})
}

// TestHung: a piece of 1 cm³ in water at 25 °C is lighter by 0.9970470 g.
func TestHung(t *testing.T) {
	bath, _ := weighing.WaterDensity(quantity.Celsius(25))
	near(t, "density", float64(weighing.HungDensity(1.87e-3, 1.87e-3-0.9970470e-3, bath)), 1870, 1870*1e-7) // seven digits
}
