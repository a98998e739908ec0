package kinetics_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
)

// TestRatesAtTheEdges: a trial step of an integrator may leave 0 to 1 and the
// range of a law; the rate stays finite and not negative, and is nothing once
// all is cured. The two-stage law is let off: its k2 is negative.
func TestRatesAtTheEdges(t *testing.T) {
	k := kinetics.Arrhenius{A: 9e4, E: 56000}
	k2 := kinetics.Arrhenius{A: 9e5, E: 54000}
	glassy := kinetics.GlassShift{Glass: glass(-35, 120, 0.36), Shift: 10, C: 60}
	linear := kinetics.LinearVitrification{A0: -1.684, ATPerK: 5.475e-3, C: 43.09}
	laws := map[string]kinetics.RateLaw{
		"kamal-sourour":             kinetics.KamalSourour{K1: k, K2: k2, M: 1, N: 2},
		"kamal-sourour, m below 1":  kinetics.KamalSourour{K2: k2, M: 0.8, N: 1.7},
		"kamal-sourour, n below 1":  kinetics.KamalSourour{K1: k, K2: k2, M: 2.5, N: 0.5},
		"nth order":                 kinetics.NthOrder{K: k, N: 1.69},
		"nth order, n below 1":      kinetics.NthOrder{K: k, N: 0.3},
		"two-stage, above its jump": twoStage1982().Piece(1),
	}
	for name, law := range laws {
		for _, v := range []kinetics.Vitrification{nil, glassy, linear} {
			r := kinetics.Resin{Cure: law, Vitrification: v}
			for _, alpha := range []float64{-1, -1e-9, 0, math.SmallestNonzeroFloat64, 0.5, 1 - 1e-16, 1, 1 + 1e-9, 2} {
				for _, celsius := range []float64{-20, 0, 23, 200} {
					got := r.CureRate(alpha, float64(quantity.Celsius(celsius)))
					if !(got >= 0) || math.IsInf(got, 0) {
						t.Errorf("%s, %v: rate %g at α = %g, %g °C", name, v, got, alpha, celsius)
					}
					if alpha >= 1 && got != 0 {
						t.Errorf("%s: rate %g at α = %g, want none", name, got, alpha)
					}
				}
			}
		}
	}
}

// TestTwoStagePieces: each piece is the law on its own side, and the jump at the
// switch is there.
func TestTwoStagePieces(t *testing.T) {
	law := twoStage1982()
	if b := law.Breaks(); len(b) != 1 || b[0] != 0.3 {
		t.Fatalf("breaks %v, want 0.3", b)
	}
	for _, c := range []struct {
		alpha float64
		piece int
	}{{0, 0}, {0.15, 0}, {0.3, 0}, {math.Nextafter(0.3, 1), 1}, {0.9, 1}, {1, 1}} {
		if got, want := law.Rate(c.alpha, 400), law.Piece(c.piece).Rate(c.alpha, 400); got != want {
			t.Errorf("α = %g: rate %g, piece %d has %g", c.alpha, got, c.piece, want)
		}
	}
	// 400 K: (k1 + k2·0.3)·0.7·0.17 against k3·0.7, by hand from the constants.
	below, above := law.Piece(0).Rate(0.3, 400), law.Piece(1).Rate(0.3, 400)
	if below == above {
		t.Errorf("no jump at the switch: %g on both sides", below)
	}
}

// TestNegativeK2: the published law has one, and the rate falls with it.
func TestNegativeK2(t *testing.T) {
	law := twoStage1982()
	if got := law.K2.At(400); !(got < 0) {
		t.Errorf("k2 = %g, want it negative", got)
	}
	if got := (kinetics.Arrhenius{E: 5e4}).At(300); got != 0 {
		t.Errorf("a constant without a prefactor is %g, want 0", got)
	}
}

// TestViscosityAtGel: infinite to a reader, finite to a root finder and beyond
// any limit, and rising all the way.
func TestViscosityAtGel(t *testing.T) {
	r := resin("epoxy-ipda")
	if got := r.ViscosityAt(r.Gel, 0, 300); !math.IsInf(float64(got), 1) {
		t.Errorf("η at gel is %v, want +Inf", got)
	}
	for _, alpha := range []float64{r.Gel, r.Gel + 1e-9, 1, 2} {
		if got := r.LogViscosity(alpha, 0, 300); math.IsInf(got, 0) || !(got > math.Log(1e20)) {
			t.Errorf("ln η at α = %g is %g, want it finite and beyond any limit", alpha, got)
		}
	}
	before := math.Inf(-1)
	for _, alpha := range []float64{-1, 0, 0.1, 0.3, 0.5, r.Gel - 1e-3, r.Gel - 1e-9, math.Nextafter(r.Gel, 0), r.Gel, 1} {
		now := r.LogViscosity(alpha, 0, 300)
		if !(now >= before) {
			t.Errorf("ln η falls to %g at α = %g", now, alpha)
		}
		before = now
	}
	if got := r.ViscosityAt(0, 0, 298.15); !(math.Abs(float64(got)-0.6) <= 1e-15) {
		t.Errorf("fresh at the reference temperature: %v, want the reference value", got)
	}
}

// TestAdiabaticRise: 459 J/g over 1.8 J/(g·K) is 255 K (derived).
func TestAdiabaticRise(t *testing.T) {
	r := kinetics.Resin{Heat: 459e3, HeatCapacity: 1800}
	got := float64(r.AdiabaticRise())
	if got != 255 {
		t.Errorf("rise %g K, want 255", got)
	}
	outside.Check(t, outside.Row{
		ID: "cure/adiabatic-rise", Subject: outside.Heat, Mark: outside.Derived,
		What: "adiabatic rise of 459 J/g at 1.8 J/(g·K)", Printed: "255", Unit: "K",
	}, got)
}

// TestGasConstant: R is the product of the Boltzmann and Avogadro constants, both exact.
func TestGasConstant(t *testing.T) {
	if got := 1.380649e-23 * 6.02214076e23; !(math.Abs(kinetics.GasConstant/got-1) <= 1e-9) { // ten digits kept
		t.Errorf("R = %.12g, the constants make %.12g", kinetics.GasConstant, got)
	}
	outside.Check(t, outside.Row{
		ID: "cure/gas-constant", Subject: outside.Cure, Source: "codata", Mark: outside.Memory,
		What: "molar gas constant", Printed: "8.314462618", Unit: "J/(mol·K)", Anchored: "our constant is this one",
	}, kinetics.GasConstant)
}
