package still_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// TestGridPromise: on the grid that the package chooses, the gel time is within
// 3e-4 of itself in a tray and 1e-3 in a cup of that on an infinitely fine one,
// taken by Richardson's rule from this grid and one twice as fine.
func TestGridPromise(t *testing.T) {
	strong := vessel.Vessel{AreaM2: 0.018, SurfaceLoss: 100, WallLoss: 100, FloorLoss: 100}
	jacket := vessel.Vessel{AreaM2: 0.018, SurfaceLoss: 10, WallLoss: 150, FloorLoss: 150}
	for _, c := range []struct {
		name  string
		resin kinetics.Resin
		body  still.Body
		bound float64
	}{
		{"tray, 10 mm", medium(), still.Tray{Vessel: vessel.Tray(0.3, 0.12, 10, 6), Mass: 0.4}, 3e-4},
		{"tray, 25 mm", fast(), still.Tray{Vessel: vessel.Tray(0.3, 0.12, 10, 6), Mass: 1}, 3e-4},
		{"tray, 75 mm", medium(), deepTray(), 3e-4},
		{"slab, 40 mm, Bi 10", medium(), still.Tray{Vessel: strong, Mass: 0.8}, 3e-4},
		{"jacketed, 40 mm", medium(), still.Tray{Vessel: jacket, Mass: 0.8}, 3e-4},
		{"cup, 300 g", medium(), still.Cup{Mass: 0.3, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 1e-3},
		{"cup, 20 g", fast(), still.Cup{Mass: 0.02, Diameter: 0.04, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 1e-3},
		{"cup, 100 g, flat", medium(), still.Cup{Mass: 0.1, Diameter: 0.1, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 1e-3},
		{"cup, 150 g in water", medium(), still.Cup{Mass: 0.15, Diameter: 0.06, SurfaceLoss: 100, WallLoss: 100, FloorLoss: 100}, 1e-3},
		{"bucket, 5 kg", medium(), still.Cup{Mass: 5, Diameter: 0.2, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 1e-3},
	} {
		gel := func(cells int) (at float64, chosen int) {
			p := still.Precision{Rel: 3e-4, Alpha: 1e-5, Temperature: 1e-3, FirstStep: 10, Cells: cells}
			pot := inRoom(t, c.resin, c.body, 25, p)
			time, err := pot.TimeTo(vessel.EndPoint{Gel: true}, fresh(25), 0, 24*hour)
			if err != nil {
				t.Fatal(err)
			}
			return float64(time), pot.Cells()
		}
		got, n := gel(0)
		finer, _ := gel(2 * n)
		exact := finer + (finer-got)/3
		d := math.Abs(got-exact) / exact
		t.Logf("%s: %d cells, gel at %.1f s, off by %.1e", c.name, n, got, d)
		if !(d <= c.bound) {
			t.Errorf("%s: gel on %d cells is off by %.2g, promised %.2g", c.name, n, d, c.bound)
		}
	}
}

// TestRoomWithKinks: a room that warms in one straight line gives the same as the
// line told in pieces, in every cell.
func TestRoomWithKinks(t *testing.T) {
	line := func(points ...float64) vessel.Series {
		var at []quantity.Time
		var is []quantity.Temperature
		for _, p := range points {
			at, is = append(at, quantity.Time(p)*hour), append(is, quantity.Celsius(20+5*p))
		}
		s, err := vessel.NewSeries(at, is)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	cup := still.Cup{Mass: 0.05, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}
	end := func(room vessel.Series) still.Profile {
		p := still.Precision{Alpha: 1e-7, Temperature: 1e-4, FirstStep: 10, Cells: 4}
		pot, err := still.New(medium(), cup, room, room, p)
		if err != nil {
			t.Fatal(err)
		}
		start, err := pot.Uniform(fresh(20))
		if err != nil {
			t.Fatal(err)
		}
		profile, err := pot.Advance(start, 0, 2*hour)
		if err != nil {
			t.Fatal(err)
		}
		return profile
	}
	whole, pieces := end(line(0, 4)), end(line(0, 0.1, 0.7, 1.3, 4))
	for i := range whole {
		// Some hundred steps of 1e-4 K, which the cure then multiplies by a few.
		if d := float64(whole[i].Temperature - pieces[i].Temperature); !(math.Abs(d) <= 0.02) {
			t.Errorf("cell %d differs by %.2g K", i, d)
		}
	}
}
