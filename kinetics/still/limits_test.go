package still_test

import (
	"errors"
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// conductive makes resin conduct so well that a still pot has one temperature.
func conductive(r kinetics.Resin) kinetics.Resin {
	r.Conductivity = 1e5
	return r
}

// twoStage is a published law whose form changes at α = 0.3, warm enough here to
// get there within hours (constants as in package kinetics' tests).
func twoStage() kinetics.Resin {
	r := medium()
	r.Vitrification = nil
	r.Cure = kinetics.TwoStage{
		K1: kinetics.Arrhenius{A: 2.101e9 / 60, E: 80700}, K2: kinetics.Arrhenius{A: -2.014e9 / 60, E: 77800},
		K3: kinetics.Arrhenius{A: 1.960e5 / 60, E: 56600}, B: 0.47, Switch: 0.3,
	}
	r.Viscosity = kinetics.DualArrhenius{
		Flow:   kinetics.Flow{At: quantity.Celsius(25), Value: 0.5, Activation: 60000},
		Growth: kinetics.Arrhenius{A: 2e6, E: 60000},
	}
	r.Gel = 0.5
	return r
}

// TestStirredLimit: with a conductivity that leaves one temperature, a still pot is
// the stirred bath, milestones, life and all. Both integrate at strict precision;
// 1e-5 is what k = 10⁵ W/(m·K) leaves of Bi, and a gel time's last digits.
func TestStirredLimit(t *testing.T) {
	limits := vessel.Limits{
		BathViscosity: 1.5, LaidViscosity: 3, BathTemperature: quantity.Celsius(40), Mandrel: celsius(23),
	}
	tray, cup := vessel.Tray(0.3, 0.12, 10, 6), vessel.Cup(0.07, 11, 11)
	for _, c := range []struct {
		name   string
		resin  kinetics.Resin
		body   still.Body
		v      vessel.Vessel
		mass   quantity.Mass
		startC float64
	}{
		{"tray", medium(), still.Tray{Vessel: tray, Mass: 0.6, Slow: true}, tray, 0.6, 25},
		{"cup", fast(), still.Cup{Mass: 0.1, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, cup, 0.1, 25},
		{"cup too thick at first", medium(), still.Cup{Mass: 0.2, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, cup, 0.2, 8},
		{"two stages", twoStage(), still.Cup{Mass: 0.2, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, cup, 0.2, 110},
	} {
		room := celsius(c.startC)
		if c.startC < 10 {
			room = celsius(25)
		}
		p := still.Strict
		p.Cells = 3
		pot, err := still.New(conductive(c.resin), c.body, room, room, p)
		if err != nil {
			t.Fatal(err)
		}
		bath := vessel.New(c.resin, c.v, room, room, vessel.Strict)
		s := vessel.State{Mass: c.mass, Temperature: quantity.Celsius(c.startC)}
		got, err := pot.Milestones(s, 0, 24*hour)
		if err != nil {
			t.Fatal(err)
		}
		want, err := bath.Milestones(s, 0, 24*hour)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name+", doubled", float64(got.Doubled), float64(want.Doubled), 1e-5)
		near(t, c.name+", gel", float64(got.Gel), float64(want.Gel), 1e-5)
		near(t, c.name+", peak", float64(got.Peak), float64(want.Peak), 1e-5)
		near(t, c.name+", peak at", float64(got.PeakAt), float64(want.PeakAt), 1e-4) // flat on top
		sameLife(t, c.name, pot, bath, s, limits)
		sameLife(t, c.name+", cooling mandrel", pot, bath, s, vessel.Limits{
			BathViscosity: 50, LaidViscosity: 1.6, BathTemperature: quantity.Celsius(250), Mandrel: cooling(t),
		})
	}
}

// cooling is a mandrel that comes warm from a store.
func cooling(t *testing.T) vessel.Series {
	t.Helper()
	s, err := vessel.NewSeries(
		[]quantity.Time{5 * minute, 40 * minute, 90 * minute},
		[]quantity.Temperature{quantity.Celsius(45), quantity.Celsius(25), quantity.Celsius(20)})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestPassages: at the moments told, the first cell and the last cell are at gel,
// the hottest at the peak. α may err by a few steps' error and T by a few hundredths
// of a kelvin; gel of a wall whose layers are of different age comes first in the
// oldest.
func TestPassages(t *testing.T) {
	layer := conduction.Layer{Thickness: 0.003, Conductivity: 0.6, Density: 1560, HeatCapacity: 1150, Resin: 480, Cells: 5}
	steel := conduction.Layer{Thickness: 0.004, Conductivity: 45, Density: 7800, HeatCapacity: 480, Cells: 2}
	wall := still.Wall{Inner: 0.04, Length: 1, Layers: []conduction.Layer{steel, layer, layer}, Inside: 5, Outside: 15}
	pot := inRoom(t, fast(), wall, 25, still.Working)
	old := fresh(25)
	old.Alpha = 0.2
	start, err := pot.ByLayer([]vessel.State{fresh(25), old, fresh(25)})
	if err != nil {
		t.Fatal(err)
	}
	passed, err := pot.Passages(start, 0, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	at := func(when quantity.Time) still.Profile {
		profile, err := pot.Advance(start, 0, when)
		if err != nil {
			t.Fatal(err)
		}
		return profile
	}
	gel := at(passed.Gel)
	if a := gel.Foremost().Alpha; !(math.Abs(a-pot.Resin().Gel) <= 1e-3) {
		t.Errorf("at gel the foremost is at α = %.5f", a)
	}
	if a := gel.Laziest().Alpha; !(a < pot.Resin().Gel-0.05) {
		t.Errorf("at gel the fresh layer is at α = %.5f already", a)
	}
	if a := at(passed.GelledThrough).Laziest().Alpha; !(math.Abs(a-pot.Resin().Gel) <= 1e-3) {
		t.Errorf("when gelled through, the laziest is at α = %.5f", a)
	}
	if d := float64(at(passed.PeakAt).Hottest().Temperature - passed.Peak); !(math.Abs(d) <= 0.05) {
		t.Errorf("at the peak the hottest is %.3f K off it", d)
	}
	if !(passed.Gel < passed.GelledThrough && gel[0].Mass == 0 && gel[2].Mass > 0) {
		t.Errorf("gel %g s, through %g s", float64(passed.Gel), float64(passed.GelledThrough))
	}
}

func sameLife(t *testing.T, name string, pot *still.Pot, bath *vessel.Bath, s vessel.State, l vessel.Limits) {
	t.Helper()
	got, err := pot.Life(s, 0, l, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	want, err := bath.Life(s, 0, vessel.Tow{}, 0, l, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	if got.EndsBy != want.EndsBy {
		t.Errorf("%s: ends by %s, stirred by %s", name, got.EndsBy, want.EndsBy)
	}
	near(t, name+", life", float64(got.Left), float64(want.Left), 1e-5)
	near(t, name+", too thick for", float64(got.TooThickFor), float64(want.TooThickFor), 1e-4)
}

// TestBreaksCellByCell: a law with a break in a pot with differences inside meets
// it cell by cell. The gel time of the working precision is that of the strict one
// within 2e-4, which a kink inside a step would spoil.
func TestBreaksCellByCell(t *testing.T) {
	cup := still.Cup{Mass: 0.2, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 40, FloorLoss: 40}
	gel := func(p still.Precision) float64 {
		p.Cells = 6
		m, err := inRoom(t, twoStage(), cup, 120, p).Milestones(fresh(90), 0, 24*hour)
		if err != nil {
			t.Fatal(err)
		}
		return float64(m.Gel)
	}
	near(t, "gel", gel(still.Working), gel(still.Strict), 2e-4)
}

// TestAloneItIsHotter: a still pot's hottest cell gels before the stirred pot.
func TestAloneItIsHotter(t *testing.T) {
	cup := still.Cup{Mass: 0.1, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}
	s := vessel.State{Mass: 0.1, Temperature: quantity.Celsius(25)}
	in := inRoom(t, medium(), cup, 25, still.Working)
	quiet, err := in.TimeTo(vessel.EndPoint{Gel: true}, s, 0, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	stirred, err := vessel.New(medium(), vessel.Cup(0.07, 11, 11), celsius(25), celsius(25), vessel.Working).
		TimeTo(vessel.EndPoint{Gel: true}, s, 0, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	if !(quiet < stirred) {
		t.Errorf("still %.0f s, stirred %.0f s", float64(quiet), float64(stirred))
	}
	t.Logf("still %.0f s, stirred %.0f s", float64(quiet), float64(stirred))
}

// TestWorkingPrecision: what Working promises of gel, on grids as it chooses them.
func TestWorkingPrecision(t *testing.T) {
	for name, body := range map[string]still.Body{
		"tray": deepTray(),
		"cup":  still.Cup{Mass: 0.3, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11},
		"film": still.Tray{Vessel: vessel.Tray(0.3, 0.12, 10, 6), Mass: 0.02},
	} {
		gel := func(p still.Precision) float64 {
			at, err := inRoom(t, medium(), body, 25, p).TimeTo(vessel.EndPoint{Gel: true}, fresh(25), 0, 48*hour)
			if err != nil {
				t.Fatal(err)
			}
			return float64(at)
		}
		fine := still.Strict
		fine.Alpha, fine.Temperature = 1e-7, 1e-4
		near(t, name+", gel", gel(still.Working), gel(fine), 1e-4)
	}
}

// TestRefusals: what cannot be computed is refused with a way out.
func TestRefusals(t *testing.T) {
	nan := math.NaN()
	poor := medium()
	poor.Conductivity = 0
	layer := conduction.Layer{Thickness: 0.01, Conductivity: 0.5, Density: 1600, HeatCapacity: 1100, Resin: 500}
	wet := layer
	wet.Resin = 2000
	for name, c := range map[string]struct {
		resin kinetics.Resin
		body  still.Body
	}{
		"no mass":             {medium(), still.Cup{Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}},
		"no diameter":         {medium(), still.Cup{Mass: 0.1, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}},
		"loss not a number":   {medium(), still.Cup{Mass: 0.1, Diameter: 0.07, SurfaceLoss: quantity.HeatTransfer(nan), WallLoss: 11, FloorLoss: 11}},
		"no area":             {medium(), still.Tray{Mass: 0.1}},
		"no conductivity":     {poor, still.Cup{Mass: 0.1, Diameter: 0.07}},
		"no layers":           {medium(), still.Wall{Length: 1}},
		"negative radius":     {medium(), still.Wall{Length: 1, Inner: -1, Layers: []conduction.Layer{layer}}},
		"more resin than all": {medium(), still.Wall{Length: 1, Layers: []conduction.Layer{wet}}},
	} {
		_, err := still.New(c.resin, c.body, celsius(25), celsius(25), still.Working)
		var wrong *still.BodyError
		if !errors.As(err, &wrong) || wrong.Mend == "" {
			t.Errorf("%s: %v, want a BodyError with a mend", name, err)
		}
	}
	pot := inRoom(t, medium(), still.Cup{Mass: 0.1, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 25, still.Working)
	var wrong *still.BodyError
	if _, err := pot.Milestones(vessel.State{Mass: 0.2, Temperature: 300}, 0, hour); !errors.As(err, &wrong) {
		t.Errorf("another mass: %v", err)
	}
	if _, err := pot.Uniform(vessel.State{}); !errors.As(err, &wrong) {
		t.Errorf("no temperature: %v", err)
	}
	if _, err := pot.Advance(still.Profile{}, 0, hour); !errors.As(err, &wrong) {
		t.Errorf("another profile: %v", err)
	}
	if _, err := pot.ByLayer([]vessel.State{fresh(20)}); !errors.As(err, &wrong) {
		t.Errorf("layers of a cup: %v", err)
	}
	if _, err := pot.Milestones(vessel.State{Temperature: 300, Alpha: math.NaN()}, 0, hour); !errors.Is(err, ode.ErrNotFinite) {
		t.Errorf("a degree of cure that is no number: %v", err)
	}
}
