package still_test

import (
	"math"
	"strconv"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// standResult is a bath of testdata/reference/stand.py: stirred while a tow runs, still when it
// has stopped.
type standResult struct {
	Name        string
	Length      float64 `json:"length_m"`
	Width       float64 `json:"width_m"`
	Filled      float64 `json:"filled_kg"`
	Room        float64 `json:"room_K"`
	Start       float64 `json:"start_K"`
	SurfaceLoss float64 `json:"surface_loss_W_per_m2_K"`
	WallLoss    float64 `json:"wall_loss_W_per_m2_K"`
	Wound       float64 `json:"wound_s"`
	Draw        float64 `json:"draw_kg_per_s"`
	Fibre       float64 `json:"fibre_kg_per_s"`
	Limit       float64 `json:"limit_K"`
	Kelvin      float64 `json:"kelvin"`
	Left        float64 `json:"left_s"`
}

// standWithin is what lives may differ by from those of stand.py, 2e-4 of itself: the slab on five
// or nine cells has up to 3e-3, as in [TestStand].
const standWithin = 3e-3

// TestStandOfABath: a bath whose drum stops with the tow is followed as by SciPy, and a plan's
// quick life is not longer than that and not 2 % shorter.
func TestStandOfABath(t *testing.T) {
	var cases []standResult
	readReference(t, "stand_results.json", &cases)
	if len(cases) != 8 {
		t.Fatalf("%d baths, want 8", len(cases))
	}
	for _, c := range cases {
		v := vessel.Tray(quantity.Length(c.Length), quantity.Length(c.Width), quantity.HeatTransfer(c.SurfaceLoss), quantity.HeatTransfer(c.WallLoss))
		v.Drum = vessel.DrumWithTow
		room := vessel.Constant(quantity.Temperature(c.Room))
		bath := vessel.New(medium(), v, room, room, vessel.Working)
		tow := vessel.Tow{DrawKgPerS: c.Draw, FibreKgPerS: c.Fibre, HeatCapacity: vessel.CarbonHeatCapacity}
		s, err := bath.Advance(vessel.State{Mass: quantity.Mass(c.Filled), Temperature: quantity.Temperature(c.Start)}, 0, quantity.Time(c.Wound), tow)
		if err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(float64(s.Temperature)-c.Kelvin) <= 2e-3) { // steps err by a few mK
			t.Errorf("%s: stops at %v, by SciPy at %.3f K", c.Name, s.Temperature, c.Kelvin)
		}
		l := vessel.Limits{BathViscosity: 1e3, LaidViscosity: 1e3, BathTemperature: quantity.Temperature(c.Limit), Mandrel: room}
		life := func(of *still.Stand) float64 {
			found, err := of.Life(s, quantity.Time(c.Wound), l, 24*hour)
			if err != nil {
				t.Fatal(err)
			}
			return float64(found.Left)
		}
		stand := still.StandOf(bath)
		outside.Check(t, outside.Row{
			ID: "libraries/stand/" + c.Name, Subject: outside.Libraries, Source: "scipy", Mark: outside.Derived,
			What: "life of a bath whose drum stops with the tow, case " + c.Name, Printed: strconv.FormatFloat(c.Left, 'f', 0, 64), Unit: "s",
			Within: standWithin*c.Left + 0.5, Why: "the grid's share of a life, and half a unit",
		}, life(stand.Exact()))
		if off := life(stand)/c.Left - 1; !(off <= 0 && off > -still.StandShort) {
			t.Errorf("%s: a plan's life is off by %+.2f %%, want 0 to %.0f %% short", c.Name, 100*off, 100*still.StandShort)
		}
	}
}
