package replay

import (
	"math"
	"testing"

	"potlife/schedule/session"
)

// TestOverdue: a layer whose done was forgotten should have ended when the machine had run in
// it for as long as it takes, pauses left out.
func TestOverdue(t *testing.T) {
	w := prepared(t, "")
	takes := float64(w.Laid[0].Time) / 60
	l := newLog(w)
	l.fill(0, 500)
	l.layer(session.Begin, 6, 1)
	for _, at := range []float64{7, 6 + takes, 6 + 1.49*takes} {
		if ended, ok := l.script(t, w, at).Overdue(); ok {
			t.Errorf("after %g min: overdue since %v", at, ended)
		}
	}
	overdue := func(minutes, want float64) {
		t.Helper()
		const second = 1.0 // a journal's clock is no finer
		ended, ok := l.script(t, w, minutes).Overdue()
		if !ok || !(math.Abs(float64(ended)-60*want) <= second) {
			t.Errorf("after %g min: %g min, %t, want %g", minutes, float64(ended)/60, ok, want)
		}
	}
	overdue(7+1.51*takes, 6+takes)
	l.add(16, session.Event{Kind: session.Pause, Text: "tow"})
	l.add(36, session.Event{Kind: session.Resume})
	if _, ok := l.script(t, w, 7+1.51*takes).Overdue(); ok {
		t.Error("a pause counts as winding")
	}
	overdue(27+1.51*takes, 26+takes)
	l.add(28+1.6*takes, session.Event{Kind: session.Pause, Text: "noon"})
	overdue(300, 26+takes)
	l.layer(session.Done, 301, 1)
	if _, ok := l.script(t, w, 302).Overdue(); ok {
		t.Error("a layer that is done is overdue")
	}
}
