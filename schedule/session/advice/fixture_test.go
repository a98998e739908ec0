package advice

import (
	"fmt"
	"testing"
	"time"

	"potlife/schedule"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// label states the resin of these tests, so that its times have a small spread.
const label = `datasheet:
  pot_life: {time: 85 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}
  viscosity: {value: 600 mPa·s, at: 25 °C}`

// prepared is the tube with its label and some of its text replaced, old and new in turn.
func prepared(t testing.TB, replace ...string) *schedule.Winding {
	t.Helper()
	return daytest.Prepared(t, append(daytest.Labelled(label), replace...)...)
}

// A day can be asked for advice.
type day struct{ *daytest.Day }

func newDay(w *schedule.Winding) day { return day{daytest.New(w)} }

// play replays the day to a moment, and a pause from then on.
func (d day) play(t testing.TB, minutes, pause float64) *replay.Played {
	t.Helper()
	j := replay.Journal{Winding: d.W, Events: d.Events, Started: d.Clock(0)}
	s, err := j.Script(d.Clock(minutes), time.Duration(pause*float64(time.Minute)))
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// ask answers at a moment, after a pause from then on.
func (d day) ask(t testing.TB, minutes, pause float64) *Answer {
	t.Helper()
	a, err := Now(d.play(t, minutes, pause))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// String says what an answer comes to.
func (a *Answer) say() string {
	resin, hardener := a.Pour.Grams()
	return fmt.Sprintf("%s by %s, %+v; %.1f min left, surely %.1f, stopped %.1f, surely %.1f, reserve %.1f; bath %.1f g %v; act before %.1f min from now; pour %.1f g and %d cups for %d goals",
		a.Advice, a.Rule, a.Situation, a.Left/60, a.LeftSure/60, a.Stopped/60, a.StoppedSure/60, a.Reserve/60,
		a.Bath.Mass.In("g"), a.Bath.Temperature, (a.ActBefore-a.Now)/60, (resin + hardener).In("g"), len(a.Pour.Cups), a.Pour.Goals)
}
