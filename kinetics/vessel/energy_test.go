package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// balance integrates what leaves a kilogram of the bath over the samples by
// Simpson's rule, (2) of the package comment divided by the mass; the samples
// are equally far apart and even in number of intervals.
func balance(r kinetics.Resin, v vessel.Vessel, room, wall vessel.Series, tow vessel.Tow, samples []vessel.Sample) (lost float64) {
	perKilogram := func(s vessel.Sample) float64 {
		depth := float64(v.Depth(s.Mass, r.Density))
		toRoom := float64(s.Temperature - room.At(s.At))
		toWall := float64(s.Temperature - wall.At(s.At))
		watts := float64(v.SurfaceLoss)*v.AreaM2*toRoom +
			(float64(v.FloorLoss)*v.AreaM2+float64(v.WallLoss)*float64(v.Perimeter)*depth)*toWall +
			tow.FibreKgPerS*float64(tow.HeatCapacity)*toRoom
		return watts / float64(s.Mass)
	}
	n := len(samples) - 1
	for i, s := range samples {
		weight := 2.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		lost += weight * perKilogram(s)
	}
	return lost * float64(samples[1].At-samples[0].At) / 3
}

// TestEnergyBalance: what the cure gives is in the bath or has left it, per
// kilogram: H·Δα = cp·ΔT + ∫loss dt. The losses are written out anew here. 1e-6
// of the heat given is the quadrature's error at a hundred samples a minute.
func TestEnergyBalance(t *testing.T) {
	warming, err := vessel.NewSeries(
		[]quantity.Time{20 * minute, 60 * minute, 100 * minute},
		[]quantity.Temperature{quantity.Celsius(18), quantity.Celsius(30), quantity.Celsius(24)})
	if err != nil {
		t.Fatal(err)
	}
	still := vessel.Constant(quantity.Celsius(22))
	carbon := vessel.Tow{DrawKgPerS: 8e-5, FibreKgPerS: 8e-4, HeatCapacity: vessel.CarbonHeatCapacity}
	for _, c := range []struct {
		name       string
		resin      kinetics.Resin
		vessel     vessel.Vessel
		room, wall vessel.Series
		tow        vessel.Tow
	}{
		{"standing", medium(), tray(), still, still, vessel.Tow{}},
		{"running away", fast(), tray(), still, still, vessel.Tow{}},
		{"winding, the level falls", medium(), tray(), still, still, carbon},
		{"jacket", medium(), vessel.Tray(0.3, 0.12, 10, vessel.UsualJacketLoss), still, vessel.Constant(quantity.Celsius(35)), vessel.Tow{}},
		{"warming room", medium(), tray(), warming, warming, vessel.Tow{}},
		{"a room that jumps, a steep law", steep(1), tray(), jumpy(t), jumpy(t), carbon},
		{"all of it", fast(), vessel.Tray(0.3, 0.12, 10, vessel.UsualJacketLoss), warming, vessel.Constant(quantity.Celsius(35)), carbon},
	} {
		b := vessel.New(c.resin, c.vessel, c.room, c.wall, vessel.Strict)
		start := fresh(0.7, 24)
		end, samples, err := b.Trace(start, 0, 2*hour, 0.6, c.tow)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(samples) - 1; n != 12000 {
			t.Fatalf("%s: %d intervals, want 12000", c.name, n)
		}
		given := float64(c.resin.Heat) * (end.Alpha - start.Alpha)
		kept := float64(c.resin.HeatCapacity) * float64(end.Temperature-start.Temperature)
		lost := balance(c.resin, c.vessel, c.room, c.wall, c.tow, samples)
		if d := math.Abs(given-kept-lost) / given; !(d <= 1e-6) {
			t.Errorf("%s: %.9g J/kg given, %.9g kept, %.9g lost: off by %.2g", c.name, given, kept, lost, d)
		}
		near(t, c.name+", mass", float64(end.Mass), 0.7-c.tow.DrawKgPerS*float64(2*hour), 1e-12)
	}
}
