package replay

import (
	"strings"
	"testing"

	"potlife/schedule/session"
)

// TestDoubtLeftOver: a left-over far from what is reckoned is told with both figures; one near
// it, of a bath that was reckoned dry, or of one that was dumped, is not doubted.
func TestDoubtLeftOver(t *testing.T) {
	w := prepared(t, "")
	doubt := func(l *log, minutes, grams float64) string {
		t.Helper()
		l.add(minutes, session.Event{Kind: session.LeftOver, Grams: &grams})
		said, err := (&Journal{Winding: w, Events: l.events}).DoubtLeftOver(l.events[len(l.events)-1])
		if err != nil {
			t.Fatal(err)
		}
		l.events = l.events[:len(l.events)-1]
		return said
	}
	l := newLog(w)
	l.fill(0, 300) // 294 g in the bath
	for grams, want := range map[float64]bool{294: false, 148: false, 146: true, 0: true, 440: false, 442: true} {
		said := doubt(l, 6, grams)
		if (said != "") != want || want && !strings.Contains(said, "294 g") {
			t.Errorf("%g g: %q", grams, said)
		}
	}
	small := newLog(w)
	small.fill(0, 60)
	if said := doubt(small, 6, 10); said != "" {
		t.Errorf("48.8 g off: %q", said)
	}
	l = newLog(w)
	l.fill(0, 240)
	l.layer(session.Begin, 6, 1)
	l.layer(session.Done, 40, 1)
	l.layer(session.Begin, 43, 2)
	if said := doubt(l, 70, 400); said != "" {
		t.Errorf("of a bath reckoned dry: %q", said)
	}
	l.add(70, session.Event{Kind: session.Pause, Text: "dry"})
	l.add(71, session.Event{Kind: session.Changed})
	if said := doubt(l, 72, 400); said != "" {
		t.Errorf("of what was dumped: %q", said)
	}
}
