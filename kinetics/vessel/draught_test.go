package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestPlateInADraught: the worked example of a plate in a laminar flow, with the Reynolds and
// Prandtl numbers printed there; and air of 2 m/s along 300 mm by hand,
//
//	Re = 2·0.3/1.562e-5 = 38 412, √Re = 195.99, ∛0.73 = 0.9004, Nu = 0.664·195.99·0.9004 = 117.2
//	117.2·0.0255/0.3 = 9.96, and 4·0.9·5.67e-8·298.15³ = 5.41 by radiation: 15.37 W/(m²·K)
func TestPlateInADraught(t *testing.T) {
	outside.Check(t, outside.Row{
		ID: "heat/plate/nusselt", Subject: outside.Heat, Source: "incropera", Where: "chapter 7, example 7.1: laminar flow over a plate", Mark: outside.Memory,
		What: "mean Nusselt number of a plate at Re 9597 and Pr 0.687", Printed: "57.4", Unit: "",
	}, vessel.PlateNusselt(9597, 0.687))
	outside.Check(t, outside.Row{
		ID: "heat/plate/draught", Subject: outside.Heat, Mark: outside.Derived,
		What: "loss of a surface of 300 mm to air of 2 m/s along it, with radiation", Printed: "15.4", Unit: "W/(m²·K)",
	}, float64(vessel.DraughtLoss(2, 0.3)))
}

// warmPlate is what a horizontal surface loses upwards in still air by free convection, in
// W/(m²·K): Nu = 0.54·Ra^(1/4) with area over perimeter for a length (McAdams; textbooks, memory),
// air at 25 °C: ν = 1.56e-5 and a = 2.14e-5 m²/s, k = 0.0255 W/(m·K).
func warmPlate(length, width, kelvins float64) float64 {
	l := length * width / (2 * (length + width))
	rayleigh := 9.81 / 298 * kelvins * l * l * l / (1.56e-5 * 2.14e-5)
	return 0.54 * math.Pow(rayleigh, 0.25) * 0.0255 / l
}

// TestDraughtsPromiseNoMore: no loss that a draught stands for is more than what is known of
// it. Still air takes 8 W/(m²·K) or more from trays of the size of baths that are 2 K warmer, and
// less than 10 where they are 5 K warmer: the usual loss needs air that moves. Where that moves at
// 0.5 m/s, which a face just feels, it and the warmth of the bath together take 10 (as cubes add up:
// Churchill's rule, memory).
func TestDraughtsPromiseNoMore(t *testing.T) {
	const radiation = 5.4
	for _, tray := range []struct{ length, width float64 }{{0.25, 0.1}, {0.3, 0.12}, {0.45, 0.22}, {0.6, 0.3}} {
		still := warmPlate(tray.length, tray.width, 2) + radiation
		if !(still >= float64(vessel.StillAirLoss)) {
			t.Errorf("%v: still air takes %.2f W/(m²·K), not %v", tray, still, vessel.StillAirLoss)
		}
		free := warmPlate(tray.length, tray.width, 5)
		// Correlations of free convection are good to some 10 % (common practice): half of that is allowed.
		if !(free+radiation <= 1.05*float64(vessel.UsualTraySurfaceLoss)) {
			t.Errorf("%v: still air takes %.2f W/(m²·K), as much as the usual loss", tray, free+radiation)
		}
		along := float64(vessel.DraughtLoss(0.5, quantity.Length(tray.length))) - radiation
		if both := math.Cbrt(free*free*free+along*along*along) + radiation; !(both >= 0.99*float64(vessel.UsualTraySurfaceLoss)) { // air is known to 1 %
			t.Errorf("%v: air of 0.5 m/s takes %.2f W/(m²·K), less than the usual loss", tray, both)
		}
	}
}

// TestLongerPlatesLoseLess: a boundary layer thickens along the plate, as √length, and thins with
// the speed.
func TestLongerPlatesLoseLess(t *testing.T) {
	radiation := vessel.DraughtLoss(0, 0.3)
	forced := func(air quantity.Speed, length quantity.Length) float64 {
		return float64(vessel.DraughtLoss(air, length) - radiation)
	}
	for what, ratio := range map[string]float64{"four times as long": forced(2, 0.3) / forced(2, 1.2), "four times as fast": forced(2, 0.3) / forced(0.5, 0.3)} {
		if !(math.Abs(ratio-2) <= 1e-9) { // rounding
			t.Errorf("%s: %g times, want 2", what, ratio)
		}
	}
}
