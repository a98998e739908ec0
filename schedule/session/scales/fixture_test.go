package scales_test

import (
	"math"
	"testing"

	"potlife/schedule"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/scales"
)

// job is the tube with a hoop layer, a helical one and a hoop again, wound from two tows.
func job(t testing.TB, bleed, per string) *schedule.Winding {
	t.Helper()
	return daytest.Prepared(t, "bleed: 0 %", "bleed: "+bleed, "per: layer", "per: "+per,
		"tows: 1, band: 4 mm", "tows: 2, band: 8 mm",
		daytest.Layers, "  - hoop\n  - {helical: 25 deg}\n  - hoop\n")
}

// wound is a day in which all layers were wound with a pot of the mass given. It ends in
// minute 40.
func wound(w *schedule.Winding, grams float64) *daytest.Day {
	d := daytest.New(w)
	d.Fill(0, grams)
	for n := 1; n <= 3; n++ {
		d.Layer(n, float64(10*n), float64(10*n+10))
	}
	return d
}

func sheet(t testing.TB, d *daytest.Day) *scales.Sheet {
	t.Helper()
	s, err := scales.Of(d.W, d.Events)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func of(x float64) *float64 { return &x }

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

// rounding is what a few float64 operations lose, relative.
const rounding = 1e-12
