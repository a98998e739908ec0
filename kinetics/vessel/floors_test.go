package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestFloors works each floor out from what it is made of, resistances in a row; a loss is
// rounded down, by 7 % at most, which is a little less than the gap of a cup may be off.
func TestFloors(t *testing.T) {
	const air, gap, sheds = 11.0, 30.0, 33.0
	for _, c := range []struct {
		floor                       vessel.Floor
		thick, conducts, gap, below float64
	}{
		{vessel.Wood, 0.018, 0.14, math.Inf(1), air},
		{vessel.Cardboard, 0.010, 0.065, math.Inf(1), air},
		{vessel.Foam, 0.020, 0.035, math.Inf(1), air},
		{vessel.Steel, 0.005, 50, gap, sheds},
		{vessel.Stone, 0.030, 2, gap, sheds},
	} {
		want := 1 / (1/c.gap + c.thick/c.conducts + 1/c.below)
		if got := float64(c.floor.Loss(6)); !(got <= want && got >= 0.93*want) {
			t.Errorf("%s loses %g W/(m²·K), worked out %.2f", c.floor, got, want)
		}
	}
	if got := vessel.Air.Loss(6); got != 6 {
		t.Errorf("in air the floor loses %g, its wall 6", float64(got))
	}
	if len(vessel.Floors) != 6 {
		t.Errorf("%d floors", len(vessel.Floors))
	}
}

// TestFloorOfItsOwn: a body that does not react and has one temperature cools by
// exp(−(h_s·A + h_f·A + h_w·P·d)·t/(m·cp)), worked out here with three different losses.
func TestFloorOfItsOwn(t *testing.T) {
	r := medium()
	r.Cure = kinetics.NthOrder{N: 1}
	v := vessel.Cup(0.09, 9, 12).OnFloor(4.5)
	room := vessel.Constant(quantity.Celsius(20))
	const mass, seconds = 0.25, 3600.0
	end, err := vessel.New(r, v, room, room, vessel.Strict).Advance(
		vessel.State{Mass: mass, Temperature: quantity.Celsius(40)}, 0, seconds, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	area := math.Pi / 4 * 0.09 * 0.09
	loses := 9*area + 4.5*area + 12*math.Pi*0.09*mass/(1110*area)
	if want := 20 + 20*math.Exp(-loses*seconds/(mass*2200)); !(math.Abs(end.Temperature.Celsius()-want) <= 1e-5) {
		t.Errorf("%.6f °C after an hour, want %.6f", end.Temperature.Celsius(), want)
	}
	if twice := v.LossesTimes(2); twice.FloorLoss != 9 || twice.WallLoss != 24 || twice.SurfaceLoss != 18 {
		t.Errorf("twice the losses: %+v", twice)
	}
}

// TestFloorOnWood is the one floor that stands in a table of ours by name: 18 mm of wood and
// air below it.
func TestFloorOnWood(t *testing.T) {
	outside.Check(t, outside.Row{
		ID: "anchored/floor/wood", Subject: outside.Heat, Mark: outside.Derived,
		What: "loss through a floor on 18 mm of wood, 0.14 W/(m·K), with air of 11 W/(m²·K) below", Printed: "4.55", Unit: "W/(m²·K)",
		Within: 0.1, Why: "rounded down to half a W/(m²·K)", Anchored: "ours is this figure, rounded",
	}, float64(vessel.Wood.Loss(11)))
}
