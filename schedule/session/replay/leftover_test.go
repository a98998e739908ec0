package replay

import (
	"math"
	"testing"

	"potlife/kinetics/warning"
	"potlife/schedule/session/daytest"
)

// TestCheckLeftOver: a left-over far from what is reckoned is found with both figures; one near
// it, of a bath that was reckoned dry, or of one that was dumped, is no warning.
func TestCheckLeftOver(t *testing.T) {
	w := daytest.Prepared(t)
	check := func(d day, minutes, grams float64) []warning.Warning {
		t.Helper()
		d.LeftOver(minutes, grams)
		found, err := (&Journal{Winding: w, Events: d.Events}).CheckLeftOver(d.Events[len(d.Events)-1])
		if err != nil {
			t.Fatal(err)
		}
		d.Events = d.Events[:len(d.Events)-1]
		return found
	}
	d := newDay(w)
	d.Fill(0, 300) // 294 g in the bath
	for grams, want := range map[float64]bool{294: false, 148: false, 146: true, 0: true, 440: false, 442: true} {
		found := check(d, 6, grams)
		if len(found) > 0 != want {
			t.Errorf("%g g: %+v", grams, found)
			continue
		}
		if want {
			far := found[0].(LeftOverFar)
			const rounding = 1e-9 // kg
			if !(math.Abs(float64(far.Weighed)-grams/1000) <= rounding) || !(math.Abs(float64(far.Reckoned)-0.294) <= rounding) {
				t.Errorf("%g g: %+v", grams, far)
			}
		}
	}
	small := newDay(w)
	small.Fill(0, 60)
	if found := check(small, 6, 10); len(found) > 0 {
		t.Errorf("48.8 g off: %+v", found)
	}
	d = newDay(w)
	d.Fill(0, 240)
	d.Layer(1, 6, 40)
	d.Begin(43, 2)
	if found := check(d, 70, 400); len(found) > 0 {
		t.Errorf("of a bath reckoned dry: %+v", found)
	}
	d.Pause(70)
	d.Changed(71)
	if found := check(d, 72, 400); len(found) > 0 {
		t.Errorf("of what was dumped: %+v", found)
	}
}
