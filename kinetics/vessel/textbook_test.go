package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// cools is the temperature in °C of a body that does not react, of one temperature, after
// seconds in air.
func cools(t *testing.T, mass, heatCapacity, area, loss, from, air, seconds float64) float64 {
	t.Helper()
	r := medium()
	r.Cure, r.HeatCapacity = kinetics.NthOrder{N: 1}, quantity.HeatCapacity(heatCapacity)
	room := vessel.Constant(quantity.Celsius(air))
	b := vessel.New(r, vessel.Vessel{AreaM2: area, SurfaceLoss: quantity.HeatTransfer(loss)}, room, room, vessel.Working)
	start := vessel.State{Mass: quantity.Mass(mass), Temperature: quantity.Celsius(from)}
	end, err := b.Advance(start, 0, quantity.Time(seconds), vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	return end.Temperature.Celsius()
}

// TestLumpedBodies: worked examples of lumped capacity, each of a body that has cooled to
// the temperature asked for when the printed time is over. The time is printed to a second
// or to four digits; the tolerance is what half of its last digit is in temperature, and
// the rounded area of the second body.
func TestLumpedBodies(t *testing.T) {
	const radius, density = 0.005, 3000.0
	sphere := 4 * math.Pi * radius * radius
	outside.Check(t, outside.Row{
		ID: "heat/lumped/sphere", Subject: outside.Heat, Source: "incropera", Where: "two-step cooling of a sphere, step in air", Mark: outside.Seen,
		What: "sphere of 10 mm in air of 20 °C from 400 °C, 10 W/(m²·K), at the 94 s found there", Printed: "335", Unit: "°C",
	}, cools(t, density*sphere*radius/3, 1000, sphere, 10, 400, 20, 94))
	const diameter, height = 0.3, 1.7
	body := math.Pi*diameter*height + 2*math.Pi*diameter*diameter/4
	outside.Check(t, outside.Row{
		ID: "heat/lumped/cylinder", Subject: outside.Heat, Source: "cengel", Where: "example 4-2", Mark: outside.Memory,
		What: "water-like cylinder of 0.3 by 1.7 m in air of 20 °C from 37 °C, 8 W/(m²·K), at the 43 860 s found there", Printed: "25", Unit: "°C",
		Within: 0.05, Why: "the book rounds its exponent to 2.79e-5 1/s, three digits",
	}, cools(t, 996*math.Pi*diameter*diameter/4*height, 4178, body, 8, 37, 20, 43860))
}

// TestCVODE compares the case of BenchmarkRunaway8h with CVODE at a relative tolerance of
// 1e-12, run by hand: testdata/reference/cvode.md.
func TestCVODE(t *testing.T) {
	room := vessel.Constant(quantity.Celsius(25))
	b := vessel.New(medium(), vessel.Tray(0.15, 0.12, 10, 6), room, room, vessel.Strict)
	m, err := b.Milestones(vessel.State{Mass: 1.0, Temperature: quantity.Celsius(25)}, 0, 8*hour)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		id, what, printed, unit string
		within                  float64
		why                     string
		ours                    float64
	}{
		{"doubled", "viscosity doubled in a bath that runs away, 1 kg at 25 °C", "4574.21359", "s", 4.6e-4, "1e-7, what strict precision promises", float64(m.Doubled)},
		{"gel", "gel in a bath that runs away, 1 kg at 25 °C", "4577.04192", "s", 4.6e-4, "1e-7, what strict precision promises", float64(m.Gel)},
		{"peak", "peak of a bath that runs away, 1 kg at 25 °C", "474.06482", "K", 0, "", float64(m.Peak)},
	} {
		outside.Check(t, outside.Row{
			ID: "libraries/cvode/" + c.id, Subject: outside.Libraries, Source: "cvode", Mark: outside.Derived,
			What: c.what, Printed: c.printed, Unit: c.unit, Within: c.within, Why: c.why,
		}, c.ours)
	}
}

// TestUsualLosses: free convection of gases is 2 to 25 W/(m²·K) (textbook, table of typical
// coefficients, seen); radiation in a room adds some 5.5. The usual losses were chosen so.
func TestUsualLosses(t *testing.T) {
	for _, c := range []struct {
		id, what string
		ours     quantity.HeatTransfer
	}{
		{"cup", "usual loss of a cup", vessel.UsualCupLoss},
		{"tray-surface", "usual loss of a tray's surface", vessel.UsualTraySurfaceLoss},
		{"tray-wall", "usual loss of a tray's wall and floor", vessel.UsualTrayWallLoss},
	} {
		outside.Check(t, outside.Row{
			ID: "anchored/loss/" + c.id, Subject: outside.Heat, Source: "cengel", Where: "typical coefficients, free convection of gases", Mark: outside.Seen,
			What: c.what, Printed: "2", To: "25", Unit: "W/(m²·K)", Anchored: "chosen inside the range, with radiation",
		}, float64(c.ours))
	}
}
