package inforce

import (
	"testing"

	"potlife/schedule"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// label states the resin of these tests, so that its times have a small spread.
const label = `datasheet:
  pot_life: {time: 85 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}
  viscosity: {value: 600 mPa·s, at: 25 °C}`

func prepared(t testing.TB, replace ...string) *schedule.Winding {
	t.Helper()
	return daytest.Prepared(t, append(daytest.Labelled(label), replace...)...)
}

// circuits is a bath that holds less than a layer takes: it is refilled within layers.
func circuits(t testing.TB) *schedule.Winding {
	t.Helper()
	return prepared(t, "refill: layers", "refill: circuits", "lowest: 120 g, highest: 900 g", "lowest: 60 g, highest: 165 g", "largest: 600 g", "largest: 110 g", "smallest: 80 g", "smallest: 40 g")
}

// A day whose plan in force can be asked for.
type day struct{ *daytest.Day }

// byPlan is a day that goes by the plan that its start keeps.
func byPlan(t testing.TB, w *schedule.Winding) day {
	t.Helper()
	d := day{daytest.New(w)}
	own := *w
	planned := daytest.Planned(t, &own)
	kept, err := Keep(&own, planned, "start")
	if err != nil {
		t.Fatal(err)
	}
	asPlanned := daytest.New(&own) // the search may have taken fewer stops
	asPlanned.AsPlanned(planned.Plan)
	d.Events = asPlanned.Events
	d.Keeps(kept)
	return d
}

// end is that of the plan of the morning.
func (d day) end() float64 { return d.Events[0].Plan.End.Sub(d.Clock(0)).Minutes() }

// rest is what is left of the plan in force at a minute, and the winding that it belongs to.
func (d day) rest(t testing.TB, minutes float64) (*Rest, *schedule.Winding) {
	t.Helper()
	p := d.play(t, minutes)
	usable, err := p.Usable()
	if err != nil {
		t.Fatal(err)
	}
	w := p.Begun(usable)
	r, err := Of(p, w)
	if err != nil {
		t.Fatal(err)
	}
	return r, w
}

func (d day) play(t testing.TB, minutes float64) *replay.Played {
	t.Helper()
	s, err := replay.Compile(d.W, d.Events, d.Clock(minutes))
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	return p
}
