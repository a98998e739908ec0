package kinetics_test

import (
	"math"
	"testing"

	"potlife/kinetics"
)

// The integrator is held to 1e-12 a step, so 1e-8 in conversion is the law's
// alone; these are identities.
const closedFormTolerance = 1e-8

// TestNthOrderClosedForm: with u = (1 − α0)^(1−n),
//
//	α = 1 − (u − (1 − n)·k·t)^(1/(1−n)), and 1 − (1 − α0)·e^(−kt) for n = 1.
//
// An order below 1 is finished at a finite time and stays there.
func TestNthOrderClosedForm(t *testing.T) {
	const kelvin = 350.0
	k := kinetics.Arrhenius{A: 1e6, E: 60000}
	for _, n := range []float64{0.5, 1, 1.3, 2, 2.7} {
		for _, start := range []float64{0, 0.1} {
			for _, kt := range []float64{0.1, 0.5, 1, 3} {
				var want float64
				if n == 1 {
					want = 1 - (1-start)*math.Exp(-kt)
				} else {
					left := math.Pow(1-start, 1-n) - (1-n)*kt
					want = 1 - math.Pow(math.Max(left, 0), 1/(1-n))
				}
				got := conversion(t, of(kinetics.NthOrder{K: k, N: n}, kelvin), start, kt/k.At(kelvin))
				if !(math.Abs(got-want) <= closedFormTolerance) {
					t.Errorf("n = %g from %g at k·t = %g: α = %.10f, want %.10f", n, start, kt, got, want)
				}
			}
		}
	}
}

// TestKamalSourourClosedForm: m = n = 1 at one temperature from α = 0,
//
//	α = (E − 1)/(E + k2/k1), E = exp((k1 + k2)·t),
//
// by partial fractions; with different activation energies of both constants
// and with the same, which the law computes another way.
func TestKamalSourourClosedForm(t *testing.T) {
	k1 := kinetics.Arrhenius{A: 2e4, E: 58000}
	for _, k2 := range []kinetics.Arrhenius{{A: 5e5, E: 56000}, {A: 3e5, E: 58000}} {
		law := kinetics.KamalSourour{K1: k1, K2: k2, M: 1, N: 1}
		for _, kelvin := range []float64{296.15, 333.15, 373.15} {
			a, b := k1.At(kelvin), k2.At(kelvin)
			for _, x := range []float64{0.5, 2, 4, 8} {
				e := math.Exp(x)
				want := (e - 1) / (e + b/a)
				got := conversion(t, of(law, kelvin), 0, x/(a+b))
				if !(math.Abs(got-want) <= closedFormTolerance) {
					t.Errorf("at %g K, (k1 + k2)t = %g: α = %.10f, want %.10f", kelvin, x, got, want)
				}
			}
		}
	}
}

// TestNthOrderIsKamalSourourWithoutAutocatalysis: k2 = 0 is law (2).
func TestNthOrderIsKamalSourourWithoutAutocatalysis(t *testing.T) {
	k := kinetics.Arrhenius{A: 1.914e5, E: 60500}
	one, other := kinetics.NthOrder{K: k, N: 1.69}, kinetics.KamalSourour{K1: k, M: 1, N: 1.69}
	for alpha := 0.0; alpha <= 1; alpha += 0.05 {
		if a, b := one.Rate(alpha, 400), other.Rate(alpha, 400); a != b {
			t.Errorf("at α = %g: %g and %g, want the same to the bit", alpha, a, b)
		}
	}
}

// TestScaledAndAdjusted: a resin twice as fast is at any conversion in half the
// time, and its viscosity factor shows in the viscosity alone.
func TestScaledAndAdjusted(t *testing.T) {
	r := resin("epoxy-ipda")
	r.Viscosity = kinetics.DualArrhenius{
		Flow: kinetics.Flow{At: 298.15, Value: 0.6, Activation: 70000}, Growth: kinetics.Arrhenius{A: 1e5, E: 50000},
	}
	quick := r.Adjusted(2, 1.3)
	slow := timeTo(t, cureRate(r, 296.15), 0, r.Gel, day)
	fast := timeTo(t, cureRate(quick, 296.15), 0, r.Gel, day)
	if !(math.Abs(slow/fast-2) <= closedFormTolerance) {
		t.Errorf("gel after %g s, adjusted %g s, want half", slow, fast)
	}
	if got := float64(quick.ViscosityAt(0.1, 0.5, 300) / r.ViscosityAt(0.1, 0.5, 300)); !(math.Abs(got-1.3) <= 1e-12) {
		t.Errorf("viscosity times %.15g, want 1.3", got)
	}
	if got := quick.Viscosity.PhiRate(300) / r.Viscosity.PhiRate(300); !(math.Abs(got-2) <= 1e-12) {
		t.Errorf("growth times %.15g, want 2", got)
	}
	two := twoStage1982()
	for _, alpha := range []float64{0.1, 0.6} {
		if got := two.Scaled(3).Rate(alpha, 400) / two.Rate(alpha, 400); !(math.Abs(got-3) <= 1e-12) {
			t.Errorf("two-stage at %g: rate times %.15g, want 3", alpha, got)
		}
	}
	if r.Cure.Rate(0.1, 300) != resin("epoxy-ipda").Cure.Rate(0.1, 300) {
		t.Error("Adjusted changed the resin it was called on")
	}
}
