package fit_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/fit"
)

// TestLabelsKeepTheirFloor: a label whose cup says nothing of what it stands on is read as
// before there were floors, to the last digit but for rounding on other processors; told the
// floor's loss as the wall's it is the same in every bit; on foam, where the cup is hotter, the
// resin that gels at the label's time is a slower one.
func TestLabelsKeepTheirFloor(t *testing.T) {
	prefactor := func(in string) float64 {
		c := calibrate(t, load(t, "epoxy-ipda"), label(t, "{pot_life: {time: 85 min, mass: 100 g, at: 23 °C, "+in+"end: gel}, viscosity: {value: 600 mPa·s, at: 25 °C}}"))
		return float64(c.Record.Kinetics.Cure.(kinetics.KamalSourour).K1.A)
	}
	plain := prefactor("in: {cup: 70 mm}, ")
	const before = 109900.10702286617 // by the program before vessels had floors
	if !(plain/before-1 <= 1e-12 && before/plain-1 <= 1e-12) {
		t.Errorf("K1 of the demo's label is %.17g 1/s, before %.17g", plain, before)
	}
	if air := prefactor("in: {cup: 70 mm, stands_on: air}, "); air != plain {
		t.Errorf("in air %.17g 1/s, said nothing %.17g", air, plain)
	}
	if foam := prefactor("in: {cup: 70 mm, stands_on: foam}, "); !(foam < 0.95*plain) {
		t.Errorf("on foam %.17g 1/s, else %.17g", foam, plain)
	}
}

// TestCoolingOnAFloor: where the file says what the vessel stands on, that is taken as known,
// and the wall's coefficient is the wall's alone: on foam, water at two depths gives what it
// was cooled with within what the prior pulls, 15 % as in TestCoolingTest.
func TestCoolingOnAFloor(t *testing.T) {
	truth := vessel.Cup(0.12, 13, 8).OnFloor(vessel.Foam.Loss(8))
	c := fit.Cooling{In: resins.Container{Cup: 0.12, StandsOn: vessel.Foam}, Covered: true}
	for _, mass := range []quantity.Mass{1.2, 0.15} {
		log := cools(t, truth, mass, func() float64 { return 0 })
		c.Tests = append(c.Tests, fit.CoolingTest{File: "water", Water: mass, Room: quantity.Celsius(21), Log: log})
	}
	got, err := c.Losses()
	if err != nil || !(math.Abs(float64(got.Surface)/13-1) <= 0.15) || !(math.Abs(float64(got.Wall)/8-1) <= 0.15) {
		t.Fatalf("%+v, %v", got, err)
	}
	c.In.StandsOn = "" // then the floor is thought to lose as the wall does, and the surface less
	other, err := c.Losses()
	if err != nil || !(other.Surface < 0.8*got.Surface) {
		t.Errorf("without the floor said the surface loses %v, with it %v; %v", other.Surface, got.Surface, err)
	}
}
