package kinetics_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
)

// TestDiBenedettoValues: Tg0 −20 °C, Tg1 120 °C, λ 0.4; derived from the law in
// the form of Pascault and Williams 1990 (from memory), to the digits given.
func TestDiBenedettoValues(t *testing.T) {
	g := glass(-20, 120, 0.4)
	for alpha, printed := range map[float64]string{0: "-20.0", 0.5: "20.0", 0.8: "66.15", 0.9: "89.57", 1: "120.0"} {
		row := derived(fmt.Sprintf("flow/dibenedetto/%g", alpha),
			fmt.Sprintf("glass temperature at conversion %g, between -20 and 120 °C with λ 0.4", alpha), "pascault", printed)
		row.Subject, row.Unit = outside.Flow, "°C"
		outside.Check(t, row, g.At(alpha).Celsius())
	}
}

// TestDiBenedettoIsOneCurve: between its ends, rising, and undone by Conversion.
// 1e-9 in conversion is rounding over the slope, which is λ at least.
func TestDiBenedettoIsOneCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		uncured := rapid.Float64Range(-60, 0).Draw(t, "uncured, °C")
		g := glass(uncured, uncured+rapid.Float64Range(50, 250).Draw(t, "span, K"), rapid.Float64Range(0.2, 1).Draw(t, "lambda"))
		alpha := rapid.Float64Range(0, 1).Draw(t, "alpha")
		if got := g.Conversion(g.At(alpha)); !(math.Abs(got-alpha) <= 1e-9) {
			t.Errorf("α = %g has Tg %v, which goes back to %g", alpha, g.At(alpha), got)
		}
		if tg := g.At(alpha); !(tg >= g.Uncured-1e-9 && tg <= g.Cured+1e-9) {
			t.Errorf("Tg %v lies outside %v to %v", tg, g.Uncured, g.Cured)
		}
		if further := math.Min(1, alpha+0.01); !(g.At(further) >= g.At(alpha)) {
			t.Errorf("Tg falls from α = %g on", alpha)
		}
	})
}

// TestDiBenedettoOutside: past the fully cured glass the inverse exceeds 1, far
// below the uncured one it has no finite value; between it is below zero.
func TestDiBenedettoOutside(t *testing.T) {
	g := glass(-20, 120, 0.4)
	if got := g.Conversion(quantity.Celsius(140)); !(got > 1) {
		t.Errorf("Tg 140 °C: α = %g, want beyond 1", got)
	}
	if got := g.Conversion(quantity.Celsius(-60)); !(got < 0) {
		t.Errorf("Tg -60 °C: α = %g, want below 0", got)
	}
	if got := g.Conversion(quantity.Celsius(-200)); !math.IsInf(got, -1) {
		t.Errorf("Tg -200 °C: α = %g, want -Inf", got)
	}
	for _, alpha := range []float64{-0.1, 1.1} {
		if got := g.At(alpha); got != g.At(math.Round(alpha)) {
			t.Errorf("Tg at α = %g is %v, want that of the nearest end", alpha, got)
		}
	}
}

// TestSlowing: one half at the conversion of vitrification, next to nothing
// above and nothing amiss where that conversion is infinite.
func TestSlowing(t *testing.T) {
	v := kinetics.GlassShift{Glass: glass(-20, 120, 0.4), Shift: 10, C: 60}
	kelvin := 296.15
	at := v.Conversion(kelvin)
	if got := v.Glass.At(at).Celsius(); !(math.Abs(got-33) <= 1e-9) { // 23 °C and the shift of 10 K
		t.Errorf("at vitrification Tg is %.12g °C, want 33", got)
	}
	for _, c := range []struct{ alpha, low, high float64 }{{at, 0.5, 0.5}, {at + 0.2, 0, 1e-5}, {at - 0.2, 1 - 1e-5, 1}, {0, 1 - 1e-12, 1}} {
		if got := kinetics.Slowing(v, c.alpha, kelvin); !(got >= c.low-1e-9 && got <= c.high+1e-9) {
			t.Errorf("slowing at α = %g is %g, want %g to %g", c.alpha, got, c.low, c.high)
		}
	}
	if got := kinetics.Slowing(v, 0, 20); got != 0 {
		t.Errorf("slowing at 20 K, far below any glass, is %g, want 0", got)
	}
}
