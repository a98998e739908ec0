package replay

import (
	"testing"

	"potlife/schedule"
	"potlife/schedule/session/daytest"
)

// calibrated gives the tube a label, so that the spread of time is 1.2.
var calibrated = daytest.Labelled(`datasheet:
  pot_life: {time: 60 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}`)

// circuits is a job whose bath holds less than a layer takes.
func circuits(t testing.TB) *schedule.Winding {
	t.Helper()
	return daytest.Prepared(t, append([]string{
		"refill: layers", "refill: circuits", "lowest: 120 g, highest: 900 g", "lowest: 60 g, highest: 200 g",
		"smallest: 80 g, largest: 600 g", "smallest: 40 g, largest: 150 g",
	}, calibrated...)...)
}

// A day can be replayed.
type day struct{ *daytest.Day }

// newDay has exact times, so that what is replayed is off by rounding only.
func newDay(w *schedule.Winding) day {
	d := day{daytest.New(w)}
	d.Exact = true
	return d
}

func (d day) script(t testing.TB, minutes float64) *Script {
	t.Helper()
	s, err := Compile(d.W, d.Events, d.Clock(minutes))
	if err != nil {
		t.Fatal(err)
	}
	return s
}
