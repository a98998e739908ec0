package schedule_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// TestPotsAgeAsIfStirred measures what the comment of package batches says: by how
// much the mean of a pot that stands still in its cup differs from one that is
// stirred. The pots are the largest of both demo jobs and each room-temperature system
// in the strut's cup. Up to a third of the life that the pot has in its cup it is to be
// less than a crew could notice: 0.2 K, which is below what their thermometer tells, and
// 1e-3 in α, half a minute of ageing.
func TestPotsAgeAsIfStirred(t *testing.T) {
	const usual = vessel.UsualCupLoss
	compared := 0
	for _, pot := range []struct {
		resin    string
		demo     string
		mass     quantity.Mass
		diameter quantity.Length
		from, in float64 // °C
	}{
		{demo: "telescope-strut.yaml", mass: 0.25, diameter: 0.09, from: 20, in: 23},
		{demo: "softener-shell.yaml", mass: 0.9, diameter: 0.14, from: 25, in: 25},
		{resin: "epoxy-teta", mass: 0.25, diameter: 0.09, from: 23, in: 23},
		{resin: "epoxy-ipda", mass: 0.25, diameter: 0.09, from: 23, in: 23},
		{resin: "epoxy-polyetheramine-ipda", mass: 0.25, diameter: 0.09, from: 23, in: 23},
		{resin: "epoxy-polyetheramine", mass: 0.25, diameter: 0.09, from: 23, in: 23},
	} {
		name := pot.resin + pot.demo
		var r *resins.Record
		if pot.demo != "" {
			r = demo(t, pot.demo).Record
		} else {
			var err error
			if r, err = resins.Load(pot.resin); err != nil {
				t.Fatal(err)
			}
		}
		room := vessel.Constant(quantity.Celsius(pot.in))
		fresh := vessel.State{Mass: pot.mass, Temperature: quantity.Celsius(pot.from)}
		bath := vessel.New(r.Kinetics, vessel.Cup(pot.diameter, usual, usual), room, room, vessel.Working)
		p := still.Working
		p.Cells = 9
		cup, err := still.New(r.Kinetics, still.Cup{Mass: pot.mass, Diameter: pot.diameter, SurfaceLoss: usual, WallLoss: usual, FloorLoss: usual}, room, room, p)
		if err != nil {
			t.Fatal(err)
		}
		life, err := cup.Life(fresh, 0, vessel.Limits{
			BathViscosity: vessel.UsualBathViscosity, LaidViscosity: vessel.UsualLaidViscosity,
			BathTemperature: vessel.UsualBathTemperature, Mandrel: room,
		}, 86400)
		if err != nil {
			t.Fatal(err)
		}
		for _, minutes := range []int{5, 10, 20, 30} {
			at := quantity.Time(minutes) * 60
			stirred, err := bath.Advance(fresh, 0, at, vessel.Tow{})
			if err != nil {
				t.Fatal(err)
			}
			profile, err := cup.Uniform(fresh)
			if err != nil {
				t.Fatal(err)
			}
			if profile, err = cup.Advance(profile, 0, at); err != nil {
				t.Fatal(err)
			}
			mean := profile.Mean()
			dK, dA := float64(mean.Temperature-stirred.Temperature), mean.Alpha-stirred.Alpha
			t.Logf("%s, %d min of %.0f: mean %.2f °C, %+.3f K, α %.4f, %+.5f; hottest %+.2f K",
				name, minutes, life.Left.In("min"), mean.Temperature.Celsius(), dK, mean.Alpha, dA, float64(profile.Hottest().Temperature-stirred.Temperature))
			if at > life.Left/3 {
				continue
			}
			compared++
			if !(math.Abs(dK) <= 0.2 && math.Abs(dA) <= 1e-3) {
				t.Errorf("%s: after %d min of %v the mean is off by %.2f K and %.5f", name, minutes, life.Left, dK, dA)
			}
		}
	}
	if compared < 12 {
		t.Errorf("only %d moments lie within a third of a life", compared)
	}
}
