package scales_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/scales"
)

// tube is a job of our own: a hoop layer, a helical one and a hoop again.
const tube = `
name: Tube
resin: epoxy-ipda
fibre: {density: 1.80 g/cm³, tex: 800}
fibre_fraction: 62 %% by mass
bleed: %s
zone: UTC
room: 23 °C
start: 2025-11-28 09:00
mandrel: {diameter: 90 mm, length: 1600 mm}
ends: {fibre: 4 m, per: %s}
machine: {tows: 2, band: 8 mm, tow_speed: 9 m/min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 900 g, change: 15 min, pour: 1 min}
pots: {smallest: 80 g, largest: 600 g, scale: 0.1 g, mixing: 5 min, cup: 90 mm, left_in_cup: 2 %%}
layers:
  - hoop
  - {helical: 25 deg}
  - hoop
`

func job(t testing.TB, bleed, per string) *schedule.Winding {
	t.Helper()
	j, err := schedule.ReadJob("tube.yaml", fmt.Appendf(nil, tube, bleed, per))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(j)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// A log makes the events of a day, one a minute after nine.
type log struct{ events []session.Event }

func begun() *log {
	l := &log{}
	l.add(session.Event{Kind: session.Started, Layers: 3})
	return l
}

func (l *log) add(e session.Event) int {
	at := time.Date(2025, 11, 28, 9, len(l.events), 0, 0, time.UTC)
	e.Seq, e.At, e.Logged = len(l.events)+1, at, at
	l.events = append(l.events, e)
	return e.Seq
}

func (l *log) mixed(grams float64) int {
	return l.add(session.Event{Kind: session.Mixed, MassG: grams})
}
func (l *log) poured(pot int)        { l.add(session.Event{Kind: session.Poured, Pot: pot}) }
func (l *log) fill(grams float64)    { l.poured(l.mixed(grams)) }
func (l *log) say(kind session.Kind) { l.add(session.Event{Kind: kind}) }
func (l *log) undo(seq int)          { l.add(session.Event{Kind: session.Undo, Of: seq}) }

func (l *log) leftOver(grams float64) {
	l.add(session.Event{Kind: session.LeftOver, Grams: &grams})
}

func (l *log) layer(n int) {
	l.add(session.Event{Kind: session.Begin, Layer: n})
	l.add(session.Event{Kind: session.Done, Layer: n})
}

func (l *log) weighed(w session.Weights) int {
	return l.add(session.Event{Kind: session.Weighed, Weights: &w})
}

// wound is a day in which all layers were wound with a pot of the mass given.
func wound(grams float64) *log {
	l := begun()
	l.fill(grams)
	for n := 1; n <= 3; n++ {
		l.layer(n)
	}
	return l
}

func sheet(t testing.TB, w *schedule.Winding, l *log) *scales.Sheet {
	t.Helper()
	s, err := scales.Of(w, l.events)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func of(x float64) *float64 { return &x }

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

// rounding is what a few float64 operations lose, relative.
const rounding = 1e-12
