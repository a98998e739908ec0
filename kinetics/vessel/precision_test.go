package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestPrecision: Working precision finds the gel of a bath that runs away within
// 1e-5 of its time, as it promises; Strict stands in for the truth, against
// which TestReferenceEvents holds it to 1e-7.
func TestPrecision(t *testing.T) {
	worst := 0.0
	for _, c := range []struct {
		name    string
		resin   kinetics.Resin
		vessel  vessel.Vessel
		mass    quantity.Mass
		celsius float64
	}{
		{"the benchmark", medium(), vessel.Tray(0.15, 0.12, 10, 6), 1, 25},
		{"a label's cup", fast(), vessel.UsualCup(0.1, 1130), 0.1, 25},
		{"a small cup", fast(), vessel.UsualCup(0.05, 1130), 0.05, 23},
		{"a warm bucket", fast(), vessel.UsualCup(2, 1130), 2, 30},
		{"a bucket", medium(), vessel.UsualCup(2, 1110), 2, 23},
		{"a full tray", medium(), tray(), 0.7, 23},
		{"no losses", medium(), vessel.Tray(0.3, 0.12, 0, 0), 0.5, 20},
	} {
		gel := func(p vessel.Precision) float64 {
			room := vessel.Constant(quantity.Celsius(c.celsius))
			m, err := vessel.New(c.resin, c.vessel, room, room, p).Milestones(fresh(c.mass, c.celsius), 0, 12*hour)
			if err != nil {
				t.Fatal(err)
			}
			if !(m.Peak > quantity.Celsius(100)) {
				t.Fatalf("%s is no runaway: peak %g °C", c.name, m.Peak.Celsius())
			}
			return float64(m.Gel)
		}
		d := math.Abs(gel(vessel.Working)/gel(vessel.Strict) - 1)
		worst = math.Max(worst, d)
		if !(d <= 1e-5) {
			t.Errorf("%s: gel is off by %.2g of its time", c.name, d)
		}
	}
	t.Logf("worst error of gel %.2g", worst)
}

// TestWork bounds the right-hand sides of the benchmark: a count, since time
// depends on the machine. 100 baths of this size have to fit into a moment.
func TestWork(t *testing.T) {
	b := inRoom(medium(), vessel.Tray(0.15, 0.12, 10, 6), 25)
	if _, err := b.Milestones(fresh(1, 25), 0, 8*hour); err != nil {
		t.Fatal(err)
	}
	if n := b.Evaluations(); n > 400 {
		t.Errorf("%d right-hand sides, want 400 at most", n)
	} else {
		t.Logf("%d right-hand sides", n)
	}
}
