package still_test

import (
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// TestProbeSeesTheLeadingCells compares with whole profiles: both are read off the
// same extension and agree to the last bit.
func TestProbeSeesTheLeadingCells(t *testing.T) {
	dual := fast()
	dual.Viscosity = kinetics.DualArrhenius{
		Flow:   kinetics.Flow{At: quantity.Celsius(25), Value: 0.6, Activation: 60000},
		Growth: kinetics.Arrhenius{A: 2e6, E: 60000},
	}
	tray := still.Tray{Vessel: vessel.Vessel{AreaM2: 0.03, Perimeter: 0.7, SurfaceLoss: 10, WallLoss: 6, FloorLoss: 6}, Mass: 0.5}
	cup := still.Cup{Mass: 0.2, Diameter: 0.08, SurfaceLoss: 10, WallLoss: 6, FloorLoss: 6}
	for _, c := range []struct {
		name  string
		resin kinetics.Resin
		body  still.Body
		mass  quantity.Mass
	}{{"cup", medium(), cup, 0.2}, {"hot cup with φ", dual, cup, 0.2}, {"tray", fast(), tray, 0.5}} {
		t.Run(c.name, func(t *testing.T) {
			pot := inRoom(t, c.resin, c.body, 25, still.Working)
			start, err := pot.Uniform(fresh(22))
			if err != nil {
				t.Fatal(err)
			}
			want, err := pot.Trace(start, -4*minute, 3*hour, minute)
			if err != nil {
				t.Fatal(err)
			}
			got, err := pot.Probe(start, -4*minute, 3*hour, minute)
			if err != nil {
				t.Fatal(err)
			}
			if len(got) != len(want) {
				t.Fatalf("%d samples, want %d", len(got), len(want))
			}
			for i, w := range want {
				g, old := got[i], w.Foremost()
				if g.At != w.At || g.Mass != c.mass || g.Temperature != w.Hottest().Temperature ||
					g.Alpha != old.Alpha || g.Phi != old.Phi {
					t.Errorf("%+v, want %v with α %g, φ %g", g, w.Hottest().Temperature, old.Alpha, old.Phi)
				}
			}
			if end, err := pot.Probe(start, 0, hour, 0); err != nil || len(end) != 1 || end[0].At != hour {
				t.Errorf("without an interval: %+v, %v", end, err)
			}
		})
	}
}
