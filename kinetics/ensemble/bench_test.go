package ensemble_test

import (
	"testing"

	"potlife/kinetics/ensemble"
)

// BenchmarkDraw draws the ensemble that judges a plan.
func BenchmarkDraw(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if n := len(ensemble.Draw(usual, 240, 1)); n != 240 {
			b.Fatal(n)
		}
	}
}
