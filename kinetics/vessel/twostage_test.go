package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// twoStage is the law of W. I. Lee, A. C. Loos, G. S. Springer, J. Compos. Mater.
// 16 (1982) 510-520 (transcribed, paper not seen), whose rate jumps at α = 0.3,
// with the heat given.
func twoStage(heat quantity.SpecificEnergy) kinetics.Resin {
	r := medium()
	r.Cure = kinetics.TwoStage{
		K1: kinetics.Arrhenius{A: 2.101e9 / 60, E: 80700},
		K2: kinetics.Arrhenius{A: -2.014e9 / 60, E: 77800},
		K3: kinetics.Arrhenius{A: 1.960e5 / 60, E: 56600},
		B:  0.47, Switch: 0.3,
	}
	r.Vitrification, r.Heat = nil, heat
	return r
}

// atOven is a bath at 400 K in a room as warm.
func atOven(r kinetics.Resin, p vessel.Precision, room vessel.Series) *vessel.Bath {
	return vessel.New(r, tray(), room, room, p)
}

var hotStart = vessel.State{Mass: 0.5, Temperature: 400}

// TestTwoStageInABath: without heat the bath stays at 400 K, for which the source's
// law gives 0.16442, 0.27455, 0.40559 and 0.63142 after 10, 30, 60 and 120 min
// (computed by two independent routes). Half a unit of the last digit, and ten
// steps' error at Working precision.
func TestTwoStageInABath(t *testing.T) {
	b := atOven(twoStage(0), vessel.Working, vessel.Constant(400))
	for at, want := range map[quantity.Time]float64{10 * minute: 0.16442, 30 * minute: 0.27455, hour: 0.40559, 2 * hour: 0.63142} {
		got := advanced(t, b, hotStart, 0, at, vessel.Tow{})
		if !(math.Abs(got.Alpha-want) <= 0.5e-5+2e-5) {
			t.Errorf("α after %g s: %.6f, want %.5f", float64(at), got.Alpha, want)
		}
		if at == hour {
			outside.Check(t, outside.Row{
				ID: "cure/two-stage-1982/bath", Subject: outside.Cure, Source: "lee1982", Mark: outside.Derived,
				What: "conversion of a bath without heat at 400 K after 60 min, two-stage law", Printed: "0.40559",
				Within: 2.5e-5, Why: "half a unit of the last digit and ten steps' error at working precision",
			}, got.Alpha)
		}
	}
}

// TestBreakIsLocated: with the heat of cure the break comes in a bath that warms;
// stepping over it blindly would leave an error that no tolerance bounds.
func TestBreakIsLocated(t *testing.T) {
	r := twoStage(150e3)
	worst := 0.0
	for at := 10 * minute; at <= 2*hour; at += 10 * minute {
		working := advanced(t, atOven(r, vessel.Working, vessel.Constant(400)), hotStart, 0, at, vessel.Tow{})
		strict := advanced(t, atOven(r, vessel.Strict, vessel.Constant(400)), hotStart, 0, at, vessel.Tow{})
		d := math.Abs(working.Alpha - strict.Alpha)
		worst = math.Max(worst, d)
		if !(d <= 2e-5) { // ten steps' error
			t.Errorf("after %g s α differs by %.2g from Strict", float64(at), d)
		}
	}
	gel := func(p vessel.Precision) float64 {
		return float64(gelOf(t, atOven(r, p, vessel.Constant(400)), hotStart))
	}
	// No runaway: what comes slowly is good to 1e-4.
	near(t, "gel", gel(vessel.Working), gel(vessel.Strict), 1e-4)
	t.Logf("worst difference of α %.2g", worst)
}

// breakTime is the first moment, to the bit, after which α is at its break.
func breakTime(t *testing.T, b *vessel.Bath) float64 {
	t.Helper()
	low, high := 0.0, 7200.0
	for {
		middle := (low + high) / 2
		if middle == low || middle == high {
			return high
		}
		if advanced(t, b, hotStart, 0, quantity.Time(middle), vessel.Tow{}).Alpha >= 0.3 {
			high = middle
		} else {
			low = middle
		}
	}
}

// TestBreakAtAKink: the room may kink, and a run may end and begin, in the very
// moment of the break or a few bits beside it; none of it changes the cure.
func TestBreakAtAKink(t *testing.T) {
	r := twoStage(0)
	b := atOven(r, vessel.Strict, vessel.Constant(400))
	want := advanced(t, b, hotStart, 0, 2*hour, vessel.Tow{}).Alpha
	moment := breakTime(t, b)
	for range 8 {
		moment = math.Nextafter(moment, 0)
	}
	for range 16 {
		moment = math.Nextafter(moment, inf)
		at := quantity.Time(moment)
		room, err := vessel.NewSeries([]quantity.Time{0, at, 2 * hour}, []quantity.Temperature{400, 400, 400})
		if err != nil {
			t.Fatal(err)
		}
		kinked := advanced(t, atOven(r, vessel.Strict, room), hotStart, 0, 2*hour, vessel.Tow{}).Alpha
		halfway := advanced(t, b, hotStart, 0, at, vessel.Tow{})
		resumed := advanced(t, b, halfway, at, 2*hour, vessel.Tow{}).Alpha
		for how, got := range map[string]float64{"kinked": kinked, "resumed": resumed} {
			if !(math.Abs(got-want) <= 1e-8) {
				t.Errorf("%s at %.17g s: α = %.10f, want %.10f", how, moment, got, want)
			}
		}
	}
}
