package advice

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/session/daytest"
)

// TestUglyDays: what nobody wants to log, and the answer can still be told: at every hour of
// the day and for a day ahead; in a long run with the whole ensemble.
func TestUglyDays(t *testing.T) {
	plain := func(t testing.TB) *schedule.Winding { return prepared(t) }
	room := func(celsius string) func(testing.TB) *schedule.Winding {
		return func(t testing.TB) *schedule.Winding {
			return prepared(t, "room: 23 °C", "room: "+celsius, "resin_at: 21 °C", "resin_at: "+celsius, "mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 23 °C}", "mandrel: {diameter: 90 mm, length: 1600 mm}")
		}
	}
	ask := func(t testing.TB, d day, minutes, pause float64) {
		t.Helper()
		var err error
		if testrun.IsLong() {
			err = sound(d.ask(t, minutes, pause))
		} else {
			_, err = d.answered(minutes, pause)
		}
		if err != nil {
			t.Errorf("after %.0f min and a pause of %.0f: %v", minutes, pause, err)
		}
	}
	for _, c := range []struct {
		name   string
		of     func(testing.TB) *schedule.Winding
		events func(d day)
	}{
		{"nothing", plain, func(day) {}},
		{"a pot of 1 g", plain, func(d day) { d.Fill(0, 1); d.Begin(6, 1) }},
		{"a pot of 20 kg", plain, func(d day) { d.Fill(0, 20_000); d.Layer(1, 6, 36) }},
		{"a layer done after a second", plain, func(d day) {
			d.Fill(0, 400)
			d.Layer(1, 6, 6+1.0/60)
		}},
		{"a layer of no time", plain, func(d day) { d.Fill(0, 400); d.Layer(1, 6, 6) }},
		{"a layer of two days", plain, func(d day) { d.Fill(0, 400); d.Layer(1, 6, 3000) }},
		{"paused for three days", plain, func(d day) {
			d.Fill(0, 400)
			d.Begin(6, 1)
			d.Pause(20)
			d.Resume(20 + 3*1440)
		}},
		{"a runaway", plain, func(d day) { d.Fill(0, 5000); d.Temperature(60, 120) }},
		{"topped up with a gelled cup", plain, func(d day) { d.Fill(0, 300); d.Poured(700, d.Mixed(10, 500)); d.Temperature(701, 40) }},
		{"a room at -20 °C", room("-20 °C"), func(d day) { d.Fill(0, 400); d.Begin(6, 1) }},
		{"a room at 60 °C", room("60 °C"), func(d day) { d.Fill(0, 400); d.Begin(6, 1) }},
		{"a room read wrong", plain, func(d day) {
			for i, c := range []float64{-20, 60, 23, 23} {
				d.Room(float64(i/2), c)
			}
			d.Fill(2, 400)
		}},
		{"nothing left in a filled bath", plain, func(d day) { d.Fill(0, 400); d.LeftOver(30, 0); d.Temperature(31, 23) }},
		{"nothing left and then wound", plain, func(d day) {
			d.Fill(0, 400)
			d.LeftOver(6, 0)
			d.Layer(1, 7, 7)
			d.Begin(10, 2)
		}},
		{"left over and poured into", plain, func(d day) { d.Fill(0, 400); d.LeftOver(6, 0); d.Fill(7, 300); d.LeftOver(20, 900) }},
		{"changed and wound without a bath", plain, func(d day) {
			d.Fill(0, 400)
			d.Begin(6, 1)
			d.Pause(10)
			d.Changed(11)
			d.Resume(12)
		}},
		{"a viscosity like water's", plain, func(d day) {
			d.Fill(0, 400)
			d.Viscosity(10, 1e-4)
			d.Viscosity(11, 1e4)
		}},
		{"no course of the job", plain, func(d day) { d.Events = d.Events[:1]; d.Fill(2000, 300); d.Begin(2007, 1) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := c.of(t)
			d := newDay(w)
			c.events(d)
			for m := 0.0; m <= 1440; m = 4*m + 1 {
				for _, pause := range []float64{0, 45, 3000} {
					ask(t, d, m, pause)
				}
			}
			last := d.Last()
			ask(t, d, last+1, 0)
		})
	}
}

// TestMorningIsNotYet: a session may begin before the job's start, or on another day.
func TestMorningIsNotYet(t *testing.T) {
	w := prepared(t)
	at := func(start float64) *Answer {
		d := day{daytest.NewAt(w, start)}
		d.Fill(start, 415.9)
		d.Begin(start+6, 1)
		return d.ask(t, start+20, 0)
	}
	want := at(0)
	for _, start := range []float64{-200, -25, -10, -5, 1440} {
		got := at(start)
		got.ActBefore, got.Now = got.ActBefore-got.Now+want.Now, want.Now
		// Elapsed times are counted from another second: rounding only.
		if got.Advice != want.Advice || !(abs(got.Left-want.Left) <= 1) || !(abs(got.LeftSure-want.LeftSure) <= 1) || !(abs(got.ActBefore-want.ActBefore) <= 1) {
			t.Errorf("begun at %+.0f min: %s\nnot %s", start, got.say(), want.say())
		}
	}
}

func abs(t quantity.Time) quantity.Time { return max(t, -t) }
