package advice

import (
	"math"
	"testing"

	"potlife/schedule/session/daytest"
	"potlife/schedule/session/inforce"
)

// TestPlanInForceRules: while it holds the next pot is that of the plan in force, to the gram, and
// not that of the search, though both keep every limit; where it does not hold it is another, the
// same at every moment of a window.
func TestPlanInForceRules(t *testing.T) {
	w := daytest.Demo(t, "telescope-strut.yaml")
	kept, err := inforce.Morning(w)
	if err != nil {
		t.Fatal(err)
	}
	searched := kept.Pours[1].Pots[0].ResinG
	for _, c := range []struct {
		name  string
		share float64 // of what the search pours next
		holds bool
	}{
		{"a little more than the search pours", 1.1, true},
		{"next to nothing, and the bath runs dry", 0.1, false},
	} {
		next := &kept.Pours[1].Pots[0]
		ratio := next.HardenerG / next.ResinG
		next.ResinG = c.share * searched
		next.HardenerG = ratio * next.ResinG
		d := newDay(w)
		d.Keeps(kept)
		d.Poured(5, d.MixedParts(0, kept.Pours[0].Pots[0].ResinG, kept.Pours[0].Pots[0].HardenerG))
		d.Begin(6, 1)
		var first float64
		for _, minutes := range []float64{7, 10, 14} { // of the window that begins with the layer
			a := d.ask(t, minutes, 0)
			if a.Situation.InForce != c.holds || a.Next == nil || a.Next.Into != "top-up" {
				t.Fatalf("%s, after %.0f min: in force %v, next %+v", c.name, minutes, a.Situation.InForce, a.Next)
			}
			resin, _ := a.Next.Pour.Grams()
			grams := resin.In("g")
			if is := math.Abs(grams-next.ResinG) < 1e-6; is != c.holds {
				t.Errorf("%s, after %.0f min: next are %.1f g, the plan has %.1f g", c.name, minutes, grams, next.ResinG)
			}
			if first == 0 {
				first = grams
			}
			if math.Abs(grams-first) > 1e-6 {
				t.Errorf("%s, after %.0f min: next are %.1f g, before %.1f g", c.name, minutes, grams, first)
			}
		}
	}
}
