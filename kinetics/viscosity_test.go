package kinetics_test

import (
	"math"
	"testing"

	"potlife/kinetics"
)

// TestCastroMacoskoAdjusted: the viscosity takes its factor, the growth follows
// the conversion and none of the rate.
func TestCastroMacoskoAdjusted(t *testing.T) {
	law := resin("epoxy-ipda").Viscosity
	adjusted := law.Adjusted(1.4, 3)
	if got := adjusted.LogFresh(300) - law.LogFresh(300); !(math.Abs(got-math.Log(1.4)) <= 1e-12) {
		t.Errorf("ln η rises by %g, want ln 1.4", got)
	}
	if law.LogGrowth(0.3, 0) != adjusted.LogGrowth(0.3, 0) {
		t.Error("the growth changed")
	}
	if law.HasPhi() || law.PhiRate(300) != 0 {
		t.Error("the power law has no φ")
	}
}

// TestDualArrheniusAtConstantTemperature: φ = k_g·t, so the viscosity doubles every
// ln 2/k_g, whatever the conversion; it stays finite for a root finder.
func TestDualArrheniusAtConstantTemperature(t *testing.T) {
	law := kinetics.DualArrhenius{
		Flow: kinetics.Flow{At: 298.15, Value: 0.6, Activation: 70000}, Growth: kinetics.Arrhenius{A: 1e5, E: 50000},
	}
	k := 1e5 * math.Exp(-50000/(kinetics.GasConstant*310))
	if got := law.PhiRate(310); !(math.Abs(got/k-1) <= 1e-12) {
		t.Errorf("dφ/dt %g, want %g", got, k)
	}
	if got := law.LogGrowth(0.9, math.Ln2); got != math.Ln2 || !law.HasPhi() {
		t.Errorf("growth %g at φ = ln 2, want the same", got)
	}
	if got := law.LogGrowth(0, 1e9); math.IsInf(got, 0) || got != kinetics.LogGrowthAtGel {
		t.Errorf("growth %g far beyond gel, want %g", got, kinetics.LogGrowthAtGel)
	}
}

// TestNthOrderScaled: rate constants take the factor.
func TestNthOrderScaled(t *testing.T) {
	law := kinetics.NthOrder{K: kinetics.Arrhenius{A: 1e5, E: 60000}, N: 1.5}
	if got := law.Scaled(2.5).Rate(0.3, 350) / law.Rate(0.3, 350); !(math.Abs(got-2.5) <= 1e-12) {
		t.Errorf("rate times %.15g, want 2.5", got)
	}
}
