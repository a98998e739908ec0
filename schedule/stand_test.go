package schedule_test

import (
	"fmt"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/catalogue"
)

// TestStandsOfTheCatalogue holds the lives by which plans count a stand to those of the slab for
// every system of the catalogue, which package still has two of: not longer, or by a thousandth where
// the slab itself is asked, and not shorter by [still.StandShort]. Where half a kelvin of the limit of the temperature, a thermometer's error,
// moves a life by more than 1 %, they are only not to be longer than that makes it. The default
// suite takes a ninth of 1800 cases.
func TestStandsOfTheCatalogue(t *testing.T) {
	n, cases := 0, 0
	for _, name := range catalogue.Systems() {
		r, err := resins.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, millimetres := range []float64{3, 6, 12, 20, 35} {
			for _, room := range []float64{18, 23, 28, 35, 60} {
				for _, over := range []float64{-3, 0, 4} {
					for _, age := range []float64{0, 0.3} {
						for _, limit := range []float64{10, 17} {
							if cases++; cases%testrun.Count(9, 1) > 0 {
								continue
							}
							s := vessel.State{Temperature: quantity.Celsius(room + over), Alpha: age * r.Kinetics.Gel, Mass: quantity.Mass(millimetres / 1000 * 0.036 * float64(r.Kinetics.Density))}
							if heldToSlab(t, r, s, quantity.Celsius(room), quantity.Celsius(room+limit)) {
								n++
							}
						}
					}
				}
			}
		}
	}
	t.Logf("%d of %d cases count", n, cases)
	if n < cases/testrun.Count(9, 1)/3 {
		t.Error("the cases show nothing")
	}
}

// heldToSlab compares one stand; false where its life is none that anybody plans.
func heldToSlab(t *testing.T, r *resins.Record, s vessel.State, room, limit quantity.Temperature) bool {
	t.Helper()
	const days quantity.Time = 48 * 3600
	v := vessel.Tray(0.3, 0.12, 10, 6)
	v.Drum = vessel.DrumWithTow
	around := vessel.Constant(room)
	l := vessel.Limits{BathViscosity: 1.5, LaidViscosity: 3, BathTemperature: limit, Mandrel: around}
	p := still.Working.Tighter(20)
	p.Cells, p.From = 15, s.Temperature
	pot, err := still.New(r.Kinetics, still.Tray{Vessel: v, Mass: s.Mass}, around, around, p)
	if err != nil {
		t.Fatal(err)
	}
	life := func(of interface {
		Life(vessel.State, quantity.Time, vessel.Limits, quantity.Time) (vessel.Life, error)
	}, l vessel.Limits,
	) quantity.Time {
		found, err := of.Life(s, 0, l, days)
		if err != nil {
			t.Fatal(err)
		}
		return found.Left
	}
	want := life(pot, l)
	if want < 300 || want > days-3600 {
		return false
	}
	got := life(still.NewStand(r.Kinetics, v, around, around, vessel.Working), l)
	l.BathTemperature += 0.5
	above := life(pot, l)
	steady := above <= 1.01*want
	const slabErrs = 1.001 // on the grid of a stand
	if !(got <= slabErrs*above) || steady && !(got <= slabErrs*want && got > want*(1-still.StandShort)) {
		t.Errorf("%s, %s: %v left, %v of the slab, %v with half a kelvin more: %+.2f %%", r.Name, fmt.Sprintf("%+v in %v, limit %v", s, room, limit), got, want, above, 100*float64(got/want-1))
	}
	return true
}
