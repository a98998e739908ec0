package replay

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// TestThePotsOwnTemperature: a pot begins at the temperature that was read in its cup, and
// what was not read is as much warmer than the job says as what was; so are pots to come.
func TestThePotsOwnTemperature(t *testing.T) {
	d := newDay(daytest.Prepared(t)) // resin at 21 °C, room 23 °C
	read := 25.5
	d.Poured(0, d.Add(0, session.Event{Kind: session.Mixed, MassG: 300, IsC: &read}))
	s := d.script(t, 0)
	if got := world(t, s).Bath.Temperature.Celsius(); !(math.Abs(got-25.5) <= 1e-9) {
		t.Errorf("poured at once it has %g °C, not 25.5", got)
	}
	d.Mixed(10, 200)
	s = d.script(t, 10)
	for what, got := range map[string]quantity.Temperature{
		"one that was not read": s.MixedAt(&s.Pots[1]), "one to come": s.Task.MixedAt(quantity.Time(3600)),
	} {
		if !(math.Abs(got.Celsius()-25.5) <= 1e-9) {
			t.Errorf("%s is mixed at %g °C, not 25.5", what, got.Celsius())
		}
	}
}
