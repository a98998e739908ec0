package still_test

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// tray is 1.5 kg of a medium system in a small tray, 75 mm deep: it runs away.
func deepTray() still.Tray {
	return still.Tray{Vessel: vessel.Tray(0.15, 0.12, 10, 6), Mass: 1.5}
}

// BenchmarkTray8h is a tray through runaway.
func BenchmarkTray8h(b *testing.B) {
	run(b, deepTray(), 8*hour, still.Working)
}

// BenchmarkCup4h is 300 g in a cup as deep as wide.
func BenchmarkCup4h(b *testing.B) {
	run(b, still.Cup{Mass: 0.3, Diameter: 0.07, SurfaceLoss: 11, WallLoss: 11, FloorLoss: 11}, 4*hour, still.Working)
}

func run(b *testing.B, body still.Body, horizon quantity.Time, p still.Precision) {
	b.Helper()
	evaluations := 0
	b.ReportAllocs()
	for b.Loop() {
		pot := inRoom(b, medium(), body, 25, p)
		m, err := pot.Milestones(fresh(25), 0, horizon)
		if err != nil || !(float64(m.Peak) > 400) || !(m.Gel < horizon) {
			b.Fatal(m, err)
		}
		evaluations = pot.Evaluations()
	}
	b.ReportMetric(float64(evaluations), "rhs/op")
}
