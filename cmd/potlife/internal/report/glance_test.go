package report

import (
	"strings"
	"testing"
	"time"
)

// TestSpoken: a time left is never promised longer than it is.
func TestSpoken(t *testing.T) {
	for want, s := range map[string]float64{
		"nothing": -1, "59 s": 59.9, "1 min": 119.9, "99 min": 5999, "1 h 40 min": 6000, "2 h 01 min": 7319,
	} {
		if got := Spoken(&s); got != want {
			t.Errorf("%g s is %q, want %q", s, got, want)
		}
	}
	if got := Spoken(nil); got != "2 days or more" {
		t.Errorf("no end is %q", got)
	}
}

// TestGlance: what a display without room for more says of the layer, of pots and of the time
// ahead; a pot that must not be poured promises no time.
func TestGlance(t *testing.T) {
	nine := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)
	clock := func(at time.Time) string { return at.Format("15:04") }
	left, likely := 1800.0, 7200.0
	c := &Check{
		Now: nine, ReserveS: 600, StoppedSureS: &left, StoppedS: &likely, LeftSureS: &likely, Running: true,
		Layers: []CheckLayer{{Name: "2 hoop", NeedsS: 660, DoneBy: nine.Add(11 * time.Minute), Fits: true}, {Name: "3 hoop", DoneBy: nine.Add(time.Hour)}},
	}
	if got := c.LayerNeeds(clock); got != "2 hoop: needs 11 min, done by 09:11 if it goes on now; fits" {
		t.Error(got)
	}
	if got := (&Check{}).LayerNeeds(clock); got != "" {
		t.Errorf("without a layer: %q", got)
	}
	want := "The time ahead. The bath is surely good until 09:30, the reserve begins at 09:20. Likely it is good until 11:00. Layer 2 hoop until 09:11: fits."
	if got := c.TimeAhead(left, &likely, 1, clock); got != want {
		t.Error(got)
	}
	if got := c.TimeAhead(left, nil, 2, clock); strings.Contains(got, "Likely") || !strings.HasSuffix(got, "Layer 3 hoop until 10:00: does not fit.") {
		t.Error(got)
	}
	if got := c.TimesLeft(); got.What != "surely left, should the tow stop" || got.Going != "with the tow running surely 2 h 00 min" || got.Other != "" || got.Likely != "2 h 00 min" {
		t.Errorf("%+v", got)
	}
	for want, cup := range map[string]CheckCup{
		"pot 3: 240 g, mixed just now, surely good until 09:30":                              {LeftSureS: &left, Usable: true},
		"pot 3: 240 g, mixed 20 min ago: past use, do not pour it; spread it thin, outdoors": {LeftSureS: &left, AgeS: 1200},
		"pot 3: 240 g, mixed just now: off its ratio, do not pour it":                        {LeftSureS: &left, OffRatio: 0.1, Usable: true},
	} {
		cup.PotNumber, cup.MassG = 3, 240
		if got := cup.Words(nine, clock); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
