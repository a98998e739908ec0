package report

import (
	"testing"

	"potlife/kinetics/quantity"
)

// TestMassDown: a mass that is promised to be safe is rounded down to two digits.
func TestMassDown(t *testing.T) {
	for kg, want := range map[float64]string{
		0.0479: "47 g", 0.05: "50 g", 0.1999: "190 g", 0.00348: "3.4 g", 0.0003: "0.3 g", 1.29: "1.2 kg", 7.5: "7.5 kg", 54.9: "54 kg", 149: "140 kg", 0.9999: "990 g",
	} {
		if got := massDown(quantity.Mass(kg)); got != want {
			t.Errorf("%g kg is told as %q, want %q", kg, got, want)
		}
	}
}
