package weighing_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
	"potlife/resins"
	"potlife/schedule/weighing"
)

// maybe draws an input that is sometimes missing and seldom insane.
func maybe[T ~float64](t *rapid.T, name string, usual float64) weighing.Known[T] {
	switch kind := rapid.IntRange(0, 99).Draw(t, name+" is"); {
	case kind > 92:
		return weighing.Known[T]{}
	case kind > 91:
		return weighing.Of(T(rapid.SampledFrom([]float64{0, -usual, 5e-324, 1e308, math.NaN(), math.Inf(1), usual * 1e-3}).Draw(t, name)))
	}
	known := weighing.Of(T(rapid.Float64Range(usual*0.9, usual*1.1).Draw(t, name)))
	if rapid.IntRange(0, 20).Draw(t, name+" doubt is") == 20 {
		known.U = T(rapid.SampledFrom([]float64{5e-324, usual * 0.1, -usual, 1e308, math.NaN(), math.Inf(1)}).Draw(t, name+" doubt"))
	}
	return known
}

func wildInput(t *rapid.T) weighing.Input {
	mass := func(name string, usual float64) weighing.Known[quantity.Mass] {
		return maybe[quantity.Mass](t, name, usual)
	}
	return weighing.Input{
		Part: mass("part", 3.3), Mandrel: mass("mandrel", 2), Trimmings: mass("trimmings", 0.05),
		Fibre: mass("fibre", 0.8), SpoolBefore: mass("before", 1.8), SpoolAfter: mass("after", 1),
		Tow: maybe[quantity.Length](t, "tow", 300), Tex: maybe[quantity.LinearDensity](t, "tex", 8e-4), Tows: rapid.IntRange(2, 4).Draw(t, "tows"),
		Mixed: mass("mixed", 3), LeftOver: mass("left", 0.1), Cups: mass("cups", 0.02), Rags: mass("rags", 0.02), Drips: mass("drips", 0.02),
		FibreDensity: maybe[quantity.Density](t, "fibre density", 1800), ResinDensity: maybe[quantity.Density](t, "resin density", 1200),
		Target: resins.FibreFraction{Value: 0.6, Basis: rapid.SampledFrom([]resins.Basis{resins.ByMass, resins.ByVolume}).Draw(t, "basis")},
		Volume: maybe[quantity.Volume](t, "volume", 1e-3), Thickness: maybe[quantity.Length](t, "thickness", 2.6e-3),
		ArealWeight: maybe[quantity.ArealWeight](t, "areal weight", 0.3), Plies: rapid.IntRange(0, 9).Draw(t, "plies"),
		Air: mass("air", 5e-3), Water: mass("water", 2e-3), WaterTemperature: weighing.Of(quantity.Celsius(rapid.Float64Range(-1, 45).Draw(t, "water temperature"))),
		Coupon: mass("coupon", 2e-3), Residue: mass("residue", 1e-3), Balance: 1e-6,
	}
}

// TestAnythingIsAnsweredOrRefused: whatever is weighed, the answer is made of
// numbers, or the error is one of the two kinds and says what to do.
func TestAnythingIsAnsweredOrRefused(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r, err := weighing.Weigh(wildInput(t))
		var refused *weighing.Impossible
		var missing *weighing.Missing
		if err != nil {
			if !errors.As(err, &refused) && !errors.As(err, &missing) {
				t.Fatalf("%v", err)
			}
			return
		}
		answered++
		for _, c := range r.MonteCarlo(2, 1).Results {
			if !(c.FirstOrder >= 0) || math.IsInf(c.FirstOrder, 0) {
				t.Errorf("%s is uncertain by %v", c.Name, c.FirstOrder)
			}
		}
		if w := r.ByMass.Value; !(w > 0 && w < 1) {
			t.Errorf("fibre fraction %v", float64(w))
		}
		if r.Verdict == nil || r.Verdict.Word == "" {
			t.Error("no verdict")
		}
	})
	if answered == 0 {
		t.Error("everything was refused")
	}
}
