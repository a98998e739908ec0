package still_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

const (
	minute quantity.Time = 60
	hour   quantity.Time = 3600
)

// medium is a medium-reactive amine system with the constants of the
// catalogue's epoxy-ipda; tests in this package need no file.
func medium() kinetics.Resin {
	glass := kinetics.DiBenedetto{Uncured: quantity.Celsius(-35), Cured: quantity.Celsius(120), Lambda: 0.36}
	return kinetics.Resin{
		Name: "medium",
		Cure: kinetics.KamalSourour{
			K1: kinetics.Arrhenius{A: 9.065e4, E: 56000}, K2: kinetics.Arrhenius{A: 9.065e5, E: 56000}, M: 1, N: 2,
		},
		Vitrification: kinetics.GlassShift{Glass: glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness},
		Glass:         glass,
		Viscosity: kinetics.CastroMacosko{
			Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 70000}, Gel: 0.577, A: 1.5, B: 1,
		},
		Gel: 0.577, Heat: 430e3, Density: 1110, HeatCapacity: 2200, Conductivity: 0.2,
	}
}

// fast is a fast amine system with the constants of the catalogue's epoxy-teta.
func fast() kinetics.Resin {
	glass := kinetics.DiBenedetto{Uncured: quantity.Celsius(-33), Cured: quantity.Celsius(124), Lambda: 0.42}
	r := medium()
	r.Name = "fast"
	r.Cure = kinetics.KamalSourour{
		K1: kinetics.Arrhenius{A: 2.362e5, E: 56000}, K2: kinetics.Arrhenius{A: 2.362e6, E: 56000}, M: 1, N: 2,
	}
	r.Glass, r.Vitrification = glass, kinetics.GlassShift{Glass: glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness}
	r.Viscosity = kinetics.CastroMacosko{
		Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.8, Activation: 75000}, Gel: 0.447, A: 1.5, B: 1,
	}
	r.Gel, r.Heat, r.Density = 0.447, 486e3, 1130
	return r
}

func celsius(v float64) vessel.Series { return vessel.Constant(quantity.Celsius(v)) }

func fresh(v float64) vessel.State { return vessel.State{Temperature: quantity.Celsius(v)} }

// inRoom is a body in a room of a constant temperature.
func inRoom(t testing.TB, r kinetics.Resin, b still.Body, roomC float64, p still.Precision) *still.Pot {
	t.Helper()
	pot, err := still.New(r, b, celsius(roomC), celsius(roomC), p)
	if err != nil {
		t.Fatal(err)
	}
	return pot
}

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if got == want { // both never, as well
		return
	}
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s is %.8g, want %.8g within %.2g of it: off by %.2g", what, got, want, rel, (got-want)/want)
	}
}
