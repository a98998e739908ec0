package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/vessel"
)

// TestAdiabaticRise: without losses T − T0 = (H/cp)·(α − α0) at every moment, the
// runaway included. A Runge-Kutta method keeps a linear invariant, so only
// rounding is allowed for.
func TestAdiabaticRise(t *testing.T) {
	r := fast()
	b := inRoom(r, vessel.Tray(0.3, 0.12, 0, 0), 5)
	start := fresh(0.5, 23)
	start.Alpha = 0.01
	_, samples, err := b.Trace(start, 0, 3*hour, minute, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	rise := float64(r.AdiabaticRise())
	for _, s := range samples {
		want := rise * (s.Alpha - start.Alpha)
		if got := float64(s.Temperature - start.Temperature); !(math.Abs(got-want) <= 1e-8*rise) {
			t.Errorf("at %g s: warmer by %.9f K, want %.9f", float64(s.At), got, want)
		}
	}
	if last := samples[len(samples)-1]; !(last.Alpha > 0.99) {
		t.Errorf("α = %g at the end, want it burnt out", last.Alpha)
	}
}
