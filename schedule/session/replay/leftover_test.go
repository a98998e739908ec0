package replay

import (
	"strings"
	"testing"

	"potlife/schedule/session/daytest"
)

// TestDoubtLeftOver: a left-over far from what is reckoned is told with both figures; one near
// it, of a bath that was reckoned dry, or of one that was dumped, is not doubted.
func TestDoubtLeftOver(t *testing.T) {
	w := daytest.Prepared(t)
	doubt := func(d day, minutes, grams float64) string {
		t.Helper()
		d.LeftOver(minutes, grams)
		said, err := (&Journal{Winding: w, Events: d.Events}).DoubtLeftOver(d.Events[len(d.Events)-1])
		if err != nil {
			t.Fatal(err)
		}
		d.Events = d.Events[:len(d.Events)-1]
		return said
	}
	d := newDay(w)
	d.Fill(0, 300) // 294 g in the bath
	for grams, want := range map[float64]bool{294: false, 148: false, 146: true, 0: true, 440: false, 442: true} {
		said := doubt(d, 6, grams)
		if (said != "") != want || want && !strings.Contains(said, "294 g") {
			t.Errorf("%g g: %q", grams, said)
		}
	}
	small := newDay(w)
	small.Fill(0, 60)
	if said := doubt(small, 6, 10); said != "" {
		t.Errorf("48.8 g off: %q", said)
	}
	d = newDay(w)
	d.Fill(0, 240)
	d.Layer(1, 6, 40)
	d.Begin(43, 2)
	if said := doubt(d, 70, 400); said != "" {
		t.Errorf("of a bath reckoned dry: %q", said)
	}
	d.Pause(70)
	d.Changed(71)
	if said := doubt(d, 72, 400); said != "" {
		t.Errorf("of what was dumped: %q", said)
	}
}
