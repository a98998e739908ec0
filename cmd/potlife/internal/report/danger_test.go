package report

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
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

// TestWayOutIsRoundedToTheSafeSide: depths down, trays up, and a split that would be
// too many is left out.
func TestWayOutIsRoundedToTheSafeSide(t *testing.T) {
	d := &schedule.Danger{Mass: 1, Safe: 0.3, Depth: 0.0048, Side: math.Sqrt2 / 10, Vessels: 4}
	// 48 mm³ per mm² of side 141.4 mm is 4 mm deep at 141.4·√1.2 = 154.9 mm (derived).
	if got, want := wayOut(d, "such cups"), "spread it no deeper than 4 mm, in a tray of 160 mm by 160 mm or wider, or split it into 4 such cups"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	d.Depth, d.Vessels = 0.0013, 0
	if got := wayOut(d, "cups"); !strings.Contains(got, "no deeper than 1.2 mm") || strings.Contains(got, "split") {
		t.Errorf("%q", got)
	}
	// In an oven nothing is safe, and no tray of infinite width is asked for.
	for _, depth := range []quantity.Length{0, 0.0003} {
		d.Depth, d.Side = depth, quantity.Length(math.Inf(1))
		if got := wayOut(d, "cups"); !strings.HasPrefix(got, "nothing makes it safe there") {
			t.Errorf("%v deep: %q", depth, got)
		}
	}
}

// TestAlarmOfAPlan: pot and bath that run away are one caution, with masses rounded down
// and what to do; a pot that is safe at no depth is poured at once, and what is no danger
// is not told.
func TestAlarmOfAPlan(t *testing.T) {
	safe := &schedule.Danger{Mass: 0.03, Safe: 0.05}
	pot := &schedule.Danger{Mass: 0.2394, Safe: 0.0569, In: 2499, Depth: 0.0048, Side: math.Sqrt2 / 10, Vessels: 5}
	bath := &schedule.Danger{Mass: 0.7, Safe: 0.2325, In: 5880, Depth: 0.0048, Side: 0.2}
	if got, want := alarmWords(&schedule.Alarms{Pot: pot, Bath: bath}), "DANGER: pots over 56 g or a bath over 232 g can run away if left. 239 g: 41 min in its cup, 700 g: 98 min in the bath (9 in 10 last longer). What is not used at once: pour it or spread it no deeper than 4 mm, in a tray of 160 mm by 160 mm or wider; empty the bath if the day ends early."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	hot := *pot
	hot.Depth, hot.In = 0, 59
	if got := alarmWords(&schedule.Alarms{Pot: &hot, Bath: safe}); !strings.Contains(got, "239 g: less than a minute in its cup") || !strings.Contains(got, "used at once: pour it at once; nothing makes it safe there") || strings.Contains(got, "bath") {
		t.Errorf("%q", got)
	}
	for _, none := range []schedule.Alarms{{}, {Pot: safe, Bath: safe}} {
		if got := alarmWords(&none); got != "" {
			t.Errorf("no danger: %q", got)
		}
	}
}
