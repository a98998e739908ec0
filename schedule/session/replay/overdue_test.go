package replay

import (
	"math"
	"testing"

	"potlife/schedule/session/daytest"
)

// TestOverdue: a layer whose done was forgotten should have ended when the machine had run in
// it for as long as it takes, pauses left out.
func TestOverdue(t *testing.T) {
	w := daytest.Prepared(t)
	takes := float64(w.Laid[0].Time) / 60
	d := newDay(w)
	d.Fill(0, 500)
	d.Begin(6, 1)
	for _, at := range []float64{7, 6 + takes, 6 + 1.49*takes} {
		if ended, ok := d.script(t, at).Overdue(); ok {
			t.Errorf("after %g min: overdue since %v", at, ended)
		}
	}
	overdue := func(minutes, want float64) {
		t.Helper()
		const second = 1.0 // a journal's clock is no finer
		ended, ok := d.script(t, minutes).Overdue()
		if !ok || !(math.Abs(float64(ended)-60*want) <= second) {
			t.Errorf("after %g min: %g min, %t, want %g", minutes, float64(ended)/60, ok, want)
		}
	}
	overdue(7+1.51*takes, 6+takes)
	d.Pause(16)
	d.Resume(36)
	if _, ok := d.script(t, 7+1.51*takes).Overdue(); ok {
		t.Error("a pause counts as winding")
	}
	overdue(27+1.51*takes, 26+takes)
	d.Pause(28 + 1.6*takes)
	overdue(300, 26+takes)
	d.Done(301, 1)
	if _, ok := d.script(t, 302).Overdue(); ok {
		t.Error("a layer that is done is overdue")
	}
}
