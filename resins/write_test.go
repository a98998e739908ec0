package resins_test

import (
	"math"
	"reflect"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/catalogue"
)

// TestFileRoundTrip: every built-in record, and one of each law that none of them
// has, is read back from its own file as it was.
func TestFileRoundTrip(t *testing.T) {
	var records []*resins.Record
	for _, name := range catalogue.Systems() {
		records = append(records, load(t, name))
	}
	k := func(a, e float64) kinetics.Arrhenius {
		return kinetics.Arrhenius{A: quantity.Rate(a), E: quantity.MolarEnergy(e)}
	}
	first, second := *load(t, "epoxy-ipda"), *load(t, "epoxy-ipda")
	first.Name, first.Description = `x "y" \ z: #`, "- a {b} 'c' × é"
	first.Kinetics.Name = first.Name
	first.Kinetics.Cure = kinetics.NthOrder{K: k(1.914e5, 60500), N: 1.69}
	first.Kinetics.Viscosity = kinetics.DualArrhenius{Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 65e3}, Growth: k(2e6, 55e3)}
	second.Caution = "not for food"
	second.Kinetics.Cure = kinetics.TwoStage{K1: k(3.5e7, 80700), K2: k(-3.3e7, 77800), K3: k(3266, 56600), B: 0.47, Switch: 0.3}
	second.Kinetics.Vitrification = kinetics.LinearVitrification{A0: -1.684, ATPerK: 5.475e-3, C: 43.09}
	for _, r := range append(records, &first, &second) {
		source := r.File()
		got, err := resins.Read("x.yaml", source)
		if err != nil {
			t.Errorf("%s: %v\n%s", r.Name, err, source)
			continue
		}
		got.Source, got.Calibrated = r.Source, r.Calibrated
		if again := got.File(); string(again) != string(source) {
			t.Errorf("%s: written again\n%s\nwas\n%s", r.Name, again, source)
		}
		// Reading rounds the last bit; the values are compared through what they do.
		for _, celsius := range []float64{20, 60} {
			kelvin := float64(quantity.Celsius(celsius))
			a, b := got.Kinetics.CureRate(0.3, kelvin), r.Kinetics.CureRate(0.3, kelvin)
			v, w := got.Kinetics.LogViscosity(0.3, 0.4, kelvin), r.Kinetics.LogViscosity(0.3, 0.4, kelvin)
			if !(math.Abs(a/b-1) <= 1e-9) || !(math.Abs(v-w) <= 1e-9) {
				t.Errorf("%s at %g °C: rate %g, was %g; ln η %g, was %g", r.Name, celsius, a, b, v, w)
			}
		}
		if got.Name != r.Name || got.Description != r.Description || got.Caution != r.Caution || !reflect.DeepEqual(got.Evidence, r.Evidence) {
			t.Errorf("%+v\nwas\n%+v", got, r)
		}
	}
}

// TestFileKeepsSevenDigits: what a fit leaves behind is written short enough to
// read, and moves no rate by more than 1e-5.
func TestFileKeepsSevenDigits(t *testing.T) {
	r := *load(t, "epoxy-ipda")
	law := r.Kinetics.Cure.(kinetics.KamalSourour)
	law.K1 = kinetics.Arrhenius{A: 123456.789012345, E: 57123.4567890123}
	law.K2 = kinetics.Arrhenius{A: 9876543.21098765, E: 57123.4567890123}
	r.Kinetics.Cure = law
	got, err := resins.Read("x.yaml", r.File())
	if err != nil {
		t.Fatal(err)
	}
	kelvin := float64(quantity.Celsius(15))
	if off := math.Abs(got.Kinetics.CureRate(0.2, kelvin)/r.Kinetics.CureRate(0.2, kelvin) - 1); !(off <= 1e-5) || off == 0 {
		t.Errorf("rate moved by %g", off)
	}
}
