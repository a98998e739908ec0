package advice

import (
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/session"
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
	left := func(grams float64) session.Event { return session.Event{Kind: session.LeftOver, Grams: &grams} }
	ask := func(t testing.TB, d *day, minutes, pause float64) {
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
		events func(d *day)
	}{
		{"nothing", plain, func(*day) {}},
		{"a pot of 1 g", plain, func(d *day) { d.fill(0, 1); d.layer(session.Begin, 6, 1) }},
		{"a pot of 20 kg", plain, func(d *day) { d.fill(0, 20_000); d.layer(session.Begin, 6, 1); d.layer(session.Done, 36, 1) }},
		{"a layer done after a second", plain, func(d *day) {
			d.fill(0, 400)
			d.layer(session.Begin, 6, 1)
			d.layer(session.Done, 6+1.0/60, 1)
		}},
		{"a layer of no time", plain, func(d *day) { d.fill(0, 400); d.layer(session.Begin, 6, 1); d.layer(session.Done, 6, 1) }},
		{"a layer of two days", plain, func(d *day) { d.fill(0, 400); d.layer(session.Begin, 6, 1); d.layer(session.Done, 3000, 1) }},
		{"paused for three days", plain, func(d *day) {
			d.fill(0, 400)
			d.layer(session.Begin, 6, 1)
			d.pause(20)
			d.resume(20 + 3*1440)
		}},
		{"a runaway", plain, func(d *day) { d.fill(0, 5000); d.temperature(60, 120) }},
		{"topped up with a gelled cup", plain, func(d *day) { d.fill(0, 300); d.poured(700, d.mixed(10, 500)); d.temperature(701, 40) }},
		{"a room at -20 °C", room("-20 °C"), func(d *day) { d.fill(0, 400); d.layer(session.Begin, 6, 1) }},
		{"a room at 60 °C", room("60 °C"), func(d *day) { d.fill(0, 400); d.layer(session.Begin, 6, 1) }},
		{"a room read wrong", plain, func(d *day) {
			for i, c := range []float64{-20, 60, 23, 23} {
				d.add(float64(i/2), session.Event{Kind: session.Room, IsC: &c})
			}
			d.fill(2, 400)
		}},
		{"nothing left in a filled bath", plain, func(d *day) { d.fill(0, 400); d.add(30, left(0)); d.temperature(31, 23) }},
		{"nothing left and then wound", plain, func(d *day) {
			d.fill(0, 400)
			d.add(6, left(0))
			d.layer(session.Begin, 7, 1)
			d.layer(session.Done, 7, 1)
			d.layer(session.Begin, 10, 2)
		}},
		{"left over and poured into", plain, func(d *day) { d.fill(0, 400); d.add(6, left(0)); d.fill(7, 300); d.add(20, left(900)) }},
		{"changed and wound without a bath", plain, func(d *day) {
			d.fill(0, 400)
			d.layer(session.Begin, 6, 1)
			d.pause(10)
			d.add(11, session.Event{Kind: session.Changed})
			d.resume(12)
		}},
		{"a viscosity like water's", plain, func(d *day) {
			d.fill(0, 400)
			d.add(10, session.Event{Kind: session.Viscosity, IsPaS: 1e-4})
			d.add(11, session.Event{Kind: session.Viscosity, IsPaS: 1e4})
		}},
		{"no course of the job", plain, func(d *day) { d.events = d.events[:1]; d.fill(2000, 300); d.layer(session.Begin, 2007, 1) }},
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
			last := d.events[len(d.events)-1].At.Sub(d.clock(0)).Minutes()
			ask(t, d, last+1, 0)
		})
	}
}

// TestMorningIsNotYet: a session may begin before the job's start, or on another day.
func TestMorningIsNotYet(t *testing.T) {
	w := prepared(t)
	at := func(start float64) *Answer {
		d := newDayAt(w, start)
		d.fill(start, 415.9)
		d.layer(session.Begin, start+6, 1)
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
