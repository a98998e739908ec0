package winding_test

import (
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/schedule/winding"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

const degree = math.Pi / 180

// example is the worked cylinder: D 100 mm, L 1 m, band 12 mm of four 800 tex
// carbon tows, V_f 0.60 with resin of 1.20 g/cm³.
func example() winding.Setup {
	v, rhoF, rhoM := 0.60, 1800.0, 1200.0
	return winding.Setup{
		Diameter: 0.1, Length: 1, Tows: 4, Band: 0.012,
		TowSpeed: 15. / 60, Turnaround: 180 * degree, EndsPer: winding.PerLayer,
		FibreDensity: quantity.Density(rhoF), Tex: 800e-6,
		FibreByMass: v * rhoF / (v*rhoF + (1-v)*rhoM), FibreVolume: v, PickUp: 1,
	}
}

// byHand is a row of the worked cylinder; half a unit of the last digit is its tolerance.
func byHand(t *testing.T, id, what, printed, unit string, ours float64) {
	t.Helper()
	outside.Check(t, outside.Row{
		ID: "winding/" + id, Subject: outside.Winding, Mark: outside.Derived, What: what, Printed: printed, Unit: unit,
	}, ours)
}

// TestHelicalExample checks a ±55° layer worked by hand (derived; two routes).
// Tolerances are half a unit of the last digit printed.
func TestHelicalExample(t *testing.T) {
	l := winding.Lay(example(), []winding.Layer{{Angle: 55 * degree}})[0]
	if l.Circuits != 16 {
		t.Errorf("%d circuits, want 16 (15.016 rounded up)", l.Circuits)
	}
	byHand(t, "circuit", "path of one of 16 circuits at 55°", "3.4869", "m", float64(l.Path)/16)
	byHand(t, "path", "path of a layer at 55°", "55.79", "m", float64(l.Path))
	byHand(t, "fibre", "fibre of a layer at 55°", "178.5", "g", l.Fibre.In("g"))
	byHand(t, "resin", "resin of a layer at 55°", "79.35", "g", l.Resin.In("g"))
	byHand(t, "spindle", "spindle at 55° and 15 m/min of tow", "39.11", "rpm", l.Spindle.In("rpm"))
	byHand(t, "time", "time of a layer at 55°, half a turn at each end", "4.128", "min", l.Time.In("min"))
	running := float64(l.Path) / float64(l.TowSpeed)
	near(t, "tow running, min", running/60, 3.719, 5e-4)
	near(t, "turn-rounds, min", (float64(l.Time)-running)/60, 0.409, 5e-4)
	draw := float64(l.Resin) / running // while the tow runs
	byHand(t, "draw", "resin drawn while the tow runs", "21.3", "g/min", draw*60e3)
	byHand(t, "age", "mean age of 500 g fed continuously", "23.4", "min", 0.5/draw/60)
	if l.Neighbour == nil {
		t.Fatal("15 circuits with a hair wider band are not offered")
	}
	if l.Neighbour.Circuits != 15 {
		t.Errorf("neighbour of %d circuits, want 15", l.Neighbour.Circuits)
	}
	byHand(t, "neighbour", "band wider to close with 15 circuits", "0.11", "%", 100*l.Neighbour.Wider)
}

// TestHoopExample: 83.33 turns at 87.81°, 26.20 m (derived).
func TestHoopExample(t *testing.T) {
	s := example()
	l := winding.Lay(s, []winding.Layer{{Hoop: true}})[0]
	byHand(t, "hoop/turns", "turns of a hoop layer", "83.33", "", l.Turns)
	byHand(t, "hoop/path", "path of a hoop layer", "26.20", "m", float64(l.Path))
	byHand(t, "hoop/angle", "angle of a hoop layer from the axis", "87.81", "deg", float64(s.GreatestAngle(s.Diameter))/degree)
	if l.Neighbour != nil {
		t.Error("a hoop has no closed pattern to save a circuit in")
	}
}

// TestPathWithoutRounding: a ±α layer that closes exactly needs 2πDL/b of band
// whatever its angle: D 100, L 1000, b 12 mm: 52.36 m (derived).
func TestPathWithoutRounding(t *testing.T) {
	for _, circuits := range []float64{3, 10, 15, 20, 25} {
		s := example()
		angle := math.Acos(circuits * 0.012 / (math.Pi * 0.1)) // closes exactly
		l := winding.Lay(s, []winding.Layer{{Angle: quantity.Angle(angle)}})[0]
		if float64(l.Circuits) != circuits {
			t.Errorf("%d circuits where %g close exactly", l.Circuits, circuits)
		}
		near(t, "path, m", float64(l.Path), 52.36, 5e-3)
		if circuits == 15 {
			byHand(t, "closed", "path of a layer that closes exactly, whatever its angle", "52.36", "m", float64(l.Path))
		}
	}
}

// TestPlyThickness: 4 × 800 tex, 1.80 g/cm³, 12 mm, V_f 0.60: 0.2469 mm
// (derived); a hoop is one ply, a helical layer two, and the next layer is
// wound on what they leave.
func TestPlyThickness(t *testing.T) {
	laid := winding.Lay(example(), []winding.Layer{{Hoop: true}, {Angle: 55 * degree}, {Hoop: true}})
	byHand(t, "ply", "wall of a hoop layer", "0.2469", "mm", laid[0].Thickness.In("mm"))
	near(t, "helical, mm", laid[1].Thickness.In("mm"), 2*0.2469, 1e-4)
	near(t, "third diameter, mm", laid[2].Diameter.In("mm"), 100+2*3*0.2469, 3e-4)
}

// TestSpindleLimit: where the tow speed would need more turns than the spindle
// makes, the tow slows in proportion.
func TestSpindleLimit(t *testing.T) {
	s := example()
	free := winding.Lay(s, []winding.Layer{{Angle: 55 * degree}})[0]
	s.Spindle = free.Spindle / 2
	slow := winding.Lay(s, []winding.Layer{{Angle: 55 * degree}})[0]
	near(t, "time, ratio", float64(slow.Time/free.Time), 2, 1e-12) // rounding only
	near(t, "tow speed, ratio", float64(slow.TowSpeed/free.TowSpeed), 0.5, 1e-12)
	near(t, "resin, ratio", float64(slow.Resin/free.Resin), 1, 1e-15)
}

// TestMeasuredLayer: measured figures override the geometry, and a length
// alone scales the time.
func TestMeasuredLayer(t *testing.T) {
	s := example()
	s.Ends = 4
	order := winding.Layer{Angle: 55 * degree}
	computed := winding.Lay(s, []winding.Layer{order})[0]
	order.Time, order.Tow = 24*60, 240
	both := winding.Lay(s, []winding.Layer{order})[0]
	near(t, "time, min", both.Time.In("min"), 24, 1e-12)
	near(t, "path, m", float64(both.Path), 240, 1e-12)
	near(t, "fibre, g", both.Fibre.In("g"), 240*4*0.8, 1e-9)
	order.Time = 0
	length := winding.Lay(s, []winding.Layer{order})[0]
	near(t, "time by length", float64(length.Time/computed.Time), 240/float64(computed.Path), 1e-12)
}

// TestEnds: lead-in and domes cost fibre, resin and time, once a layer or once
// a circuit.
func TestEnds(t *testing.T) {
	s := example()
	order := []winding.Layer{{Angle: 55 * degree}}
	bare := winding.Lay(s, order)[0]
	s.Ends = 2
	once := winding.Lay(s, order)[0]
	near(t, "path, m", float64(once.Path-bare.Path), 2, 1e-12)
	near(t, "time, s", float64(once.Time-bare.Time), 8, 1e-9) // 2 m at 15 m/min
	s.EndsPer = winding.PerCircuit
	each := winding.Lay(s, order)[0]
	near(t, "path, m", float64(each.Path-bare.Path), 32, 1e-9)
}

// TestPickUp: resin carried is the target times the pick-up.
func TestPickUp(t *testing.T) {
	s := example()
	s.PickUp = 1.12
	l := winding.Lay(s, []winding.Layer{{Angle: 55 * degree}})[0]
	near(t, "resin, g", l.Resin.In("g"), 1.12*79.35, 6e-3)
}
