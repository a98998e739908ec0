package still_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// lost integrates by Simpson's rule what leaves a pot over samples equally far
// apart and even in number of intervals.
func lost(pot *still.Pot, room, wall vessel.Series, samples []still.Sample) float64 {
	net, sum := pot.Network(), 0.0
	n := len(samples) - 1
	for i, s := range samples {
		weight := 2.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		for c, state := range s.Profile {
			sum += weight * (net.ToRoom[c]*float64(state.Temperature-room.At(s.At)) +
				net.ToWall[c]*float64(state.Temperature-wall.At(s.At)))
		}
	}
	return sum * float64(samples[1].At-samples[0].At) / 3
}

// kept is the heat in a profile, from 0 K on, and that which its cure has given.
func kept(pot *still.Pot, p still.Profile) (heat, given float64) {
	net := pot.Network()
	for c, s := range p {
		heat += net.Capacity[c] * float64(s.Temperature)
		given += net.Resin[c] * float64(pot.Resin().Heat) * s.Alpha
	}
	return heat, given
}

// TestEnergyBalance: what the cure gives is in the body or has left it. 1e-6 of
// the heat given is the quadrature's error at a sample a second.
func TestEnergyBalance(t *testing.T) {
	warming, err := vessel.NewSeries(
		[]quantity.Time{20 * minute, 60 * minute, 100 * minute},
		[]quantity.Temperature{quantity.Celsius(18), quantity.Celsius(45), quantity.Celsius(24)})
	if err != nil {
		t.Fatal(err)
	}
	wound := still.Wall{
		Inner: 0.04, Length: 1, Inside: 5, Outside: 15,
		Layers: []conduction.Layer{
			{Thickness: 0.005, Conductivity: 45, Density: 7800, HeatCapacity: 480, Cells: 3},
			{Thickness: 0.008, Conductivity: 0.6, Density: 1560, HeatCapacity: 1150, Resin: 480, Cells: 9},
		},
	}
	for _, c := range []struct {
		name       string
		resin      kinetics.Resin
		body       still.Body
		room, wall vessel.Series
	}{
		{"tray that runs away", medium(), deepTray(), celsius(25), celsius(25)},
		{"tray in a jacket, warming room", fast(), still.Tray{Vessel: vessel.Tray(0.3, 0.12, 10, 150), Mass: 0.5}, warming, celsius(35)},
		{"cup", fast(), still.Cup{Mass: 0.02, Diameter: 0.04, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, warming, warming},
		{"wound wall", fast(), wound, warming, celsius(25)},
		{"cup in a room that jumps, a steep law", steep(), still.Cup{Mass: 0.2, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, jumpy(t), jumpy(t)},
	} {
		p := still.Precision{Alpha: 1e-7, Temperature: 1e-4, FirstStep: 1, Cells: 8}
		pot, err := still.New(c.resin, c.body, c.room, c.wall, p)
		if err != nil {
			t.Fatal(err)
		}
		start, err := pot.Uniform(fresh(24))
		if err != nil {
			t.Fatal(err)
		}
		samples, err := pot.Trace(start, 0, 2*hour, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(samples) - 1; n != 14400 {
			t.Fatalf("%s: %d intervals, want 14400", c.name, n)
		}
		heat0, given0 := kept(pot, start)
		heat, given := kept(pot, samples[len(samples)-1].Profile)
		out := lost(pot, c.room, c.wall, samples)
		if d := math.Abs((given-given0)-(heat-heat0)-out) / (given - given0); !(d <= 1e-6) {
			t.Errorf("%s: %.9g J given, %.9g kept, %.9g lost: off by %.2g", c.name, given-given0, heat-heat0, out, d)
		}
	}
}
