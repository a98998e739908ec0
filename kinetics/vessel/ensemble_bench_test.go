package vessel_test

import (
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// BenchmarkHundredBaths is an uncertain bath: a hundred members of 500 g of a
// medium system in a tray, 8 h each, on as many processors as there are.
func BenchmarkHundredBaths(b *testing.B) {
	members := ensemble.Draw(ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.3}, 100, 1)
	room := vessel.Constant(quantity.Celsius(25))
	nothing := func() struct{} { return struct{}{} }
	b.ReportAllocs()
	for b.Loop() {
		err := ensemble.Each(len(members), nothing, func(_ struct{}, i int) error {
			m := members[i]
			bath := vessel.New(medium().Adjusted(m.Rate, m.Viscosity), tray().LossesTimes(m.Loss), room, room, vessel.Working)
			_, err := bath.Milestones(fresh(0.5, 25), 0, 8*hour)
			return err
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLife is what a plan asks for at every moment: how long would this bath
// last if the tow stopped now?
func BenchmarkLife(b *testing.B) {
	bath := inRoom(medium(), tray(), 23)
	start, limits := fresh(0.5, 23), usual(23)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bath.Life(start, 0, vessel.Tow{}, 0.1, limits, 24*hour); err != nil {
			b.Fatal(err)
		}
	}
}
