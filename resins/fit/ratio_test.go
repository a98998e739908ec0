package fit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"potlife/resins/fit"
)

// TestRatiosUnlikeTheNearest: epoxy-ipda takes 24 g to 100. Half as much again and two
// thirds of it, 36 and 16, are still without a word; a little beyond is a warning of the fit,
// which knows by which way of measuring the file gives it.
func TestRatiosUnlikeTheNearest(t *testing.T) {
	for _, c := range []struct {
		hardener string
		given    float64 // g to 100 g; 0: no warning
	}{
		{"by_mass: 24", 0},
		{"by_mass: 35.9", 0},
		{"by_mass: 16.1", 0},
		{"by_mass: 36.1", 36.1},
		{"by_mass: 15.9", 15.9},
		{"by_mass: 1500", 1500},
		{"by_volume: 60", 60},
	} {
		resin := "by_mass"
		if strings.HasPrefix(c.hardener, "by_volume") {
			resin = "by_volume"
		}
		text := fmt.Sprintf("name: x\nlike: epoxy-ipda\nparts: {resin: {%s: 100, density: 1.1 g/cm³}, hardener: {%s, density: 1.1 g/cm³}}\nstatements: [viscosity: {value: 600 mPa·s, at: 25 °C}]\n", resin, c.hardener)
		s, err := fit.Read("x.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		got, warned := one[fit.UnlikeRatio](fitted(t, s).Warnings)
		if warned != (c.given > 0) {
			t.Errorf("%s: warned %v", c.hardener, warned)
		}
		if warned && (!(math.Abs(got.Given/c.given-1) <= 1e-12) || !(math.Abs(got.Usual/24-1) <= 1e-12) || got.System != "epoxy-ipda" || got.ByVolume != (resin == "by_volume")) {
			t.Errorf("%s: %+v", c.hardener, got)
		}
	}
}
