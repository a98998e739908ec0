package vessel_test

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// BenchmarkRunaway8h is 1 kg of a medium system in a tray, 8 h through
// runaway, to a gel-time error below 1e-5 (TestPrecision proves it).
func BenchmarkRunaway8h(b *testing.B) {
	room := vessel.Constant(quantity.Celsius(25))
	before := 0
	b.ReportAllocs()
	for b.Loop() {
		bath := vessel.New(medium(), vessel.Tray(0.15, 0.12, 10, 6), room, room, vessel.Working)
		fresh := vessel.State{Mass: 1.0, Temperature: quantity.Celsius(25)}
		m, err := bath.Milestones(fresh, 0, 8*3600)
		if err != nil || !(float64(m.Peak) > 400) {
			b.Fatal(m, err)
		}
		before = bath.Evaluations()
	}
	b.ReportMetric(float64(before), "rhs/op")
}
