package replay

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"potlife/schedule"
	"potlife/schedule/session"
)

// strut is a job of our own: a carbon tube of three layers on a day with a constant room.
const strut = `
name: Twin
resin: epoxy-ipda
fibre: {density: 1.80 g/cm³, tex: 800}
fibre_fraction: 62 %% by mass
pick_up: 1.0
bleed: 0 %%
resin_at: 21 °C
refill: layers
zone: UTC
room: 23 °C
start: 2026-11-28 09:00
mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 23 °C}
ends: {fibre: 4 m, per: layer}
machine: {tows: 1, band: 4 mm, tow_speed: 9 m/min, spindle: 60 rpm, turnaround: 180 deg, between_layers: 3 min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 900 g, change: 15 min, pour: 1 min, stirred: true, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}
pots: {smallest: 80 g, largest: 600 g, scale: 0.1 g, ratio_tolerance: 2 %%, mixing: 5 min, cup: 90 mm, left_in_cup: 2 %%, helper: true}
limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}
%s
layers:
  - {helical: 25 deg}
  - {helical: 25 deg}
  - hoop
`

// calibrated adds a label to a job, so that the spread of time is 1.2.
const calibrated = `datasheet:
  pot_life: {time: 60 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}`

func prepared(t testing.TB, more string) *schedule.Winding {
	t.Helper()
	job, err := schedule.ReadJob("strut.yaml", fmt.Appendf(nil, strut, more))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// circuits is a job whose bath holds less than a layer takes.
func circuits(t testing.TB) *schedule.Winding {
	t.Helper()
	text := strings.NewReplacer("refill: layers", "refill: circuits", "lowest: 120 g, highest: 900 g", "lowest: 60 g, highest: 200 g",
		"smallest: 80 g, largest: 600 g", "smallest: 40 g, largest: 150 g").Replace(fmt.Sprintf(strut, calibrated))
	job, err := schedule.ReadJob("circuits.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// A log makes the events of a day, told in minutes after nine.
type log struct {
	events []session.Event
	start  time.Time
}

func newLog(w *schedule.Winding) *log {
	l := &log{start: w.Job.Start}
	l.add(0, session.Event{Kind: session.Started, Layers: len(w.Laid)})
	return l
}

func (l *log) at(minutes float64) time.Time {
	return l.start.Add(time.Duration(minutes * float64(time.Minute)))
}

func (l *log) add(minutes float64, e session.Event) {
	e.Seq, e.At, e.Logged = len(l.events)+1, l.at(minutes), l.at(minutes)
	l.events = append(l.events, e)
}

// fill mixes a pot and pours it five minutes later.
func (l *log) fill(minutes, grams float64) {
	l.add(minutes, session.Event{Kind: session.Mixed, MassG: grams})
	l.add(minutes+5, session.Event{Kind: session.Poured, Pot: len(l.events)})
}

func (l *log) layer(kind session.Kind, minutes float64, n int) {
	l.add(minutes, session.Event{Kind: kind, Layer: n})
}

func (l *log) temperature(minutes, celsius float64) {
	l.add(minutes, session.Event{Kind: session.BathTemp, IsC: &celsius})
}

func (l *log) script(t testing.TB, w *schedule.Winding, minutes float64) *Script {
	t.Helper()
	s, err := Compile(w, l.events, l.at(minutes))
	if err != nil {
		t.Fatal(err)
	}
	return s
}
