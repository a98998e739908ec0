package advice

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// tube is a job of our own: a carbon tube of three layers on a day with a constant room.
const tube = `
name: Tube
resin: epoxy-ipda
datasheet:
  pot_life: {time: 110 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}
  viscosity: {value: 600 mPa·s, at: 25 °C}
fibre: {density: 1.80 g/cm³, tex: 800}
fibre_fraction: 62 % by mass
pick_up: 1.0
bleed: 0 %
resin_at: 21 °C
refill: layers
zone: UTC
room: 23 °C
start: 2026-11-28 09:00
mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 23 °C}
ends: {fibre: 4 m, per: layer}
machine: {tows: 1, band: 4 mm, tow_speed: 9 m/min, spindle: 60 rpm, turnaround: 180 deg, between_layers: 3 min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 900 g, change: 15 min, pour: 1 min, stirred: true, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}
pots: {smallest: 80 g, largest: 600 g, scale: 0.1 g, ratio_tolerance: 2 %, mixing: 5 min, cup: 90 mm, left_in_cup: 2 %, helper: true}
limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}
layers:
  - {helical: 25 deg}
  - {helical: 25 deg}
  - hoop
`

// prepared is the tube with some of its text replaced, old and new in turn.
func prepared(t testing.TB, replace ...string) *schedule.Winding {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(tube, replace[i]) {
			t.Fatalf("the job has no %q", replace[i])
		}
	}
	job, err := schedule.ReadJob("tube.yaml", []byte(strings.NewReplacer(replace...).Replace(tube)))
	if err != nil {
		t.Fatal(err)
	}
	return winding(t, job)
}

// demo is a job of testdata.
func demo(t testing.TB, name string) *schedule.Winding {
	t.Helper()
	job, err := schedule.LoadJob(filepath.Join("..", "..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	return winding(t, job)
}

func winding(t testing.TB, job *schedule.Job) *schedule.Winding {
	t.Helper()
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// planned is the winding's plan.
func planned(t testing.TB, w *schedule.Winding) *batches.Plan {
	t.Helper()
	s, err := w.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if !s.Feasible() {
		t.Fatalf("the job has no plan: %+v", s.Breach)
	}
	return s.Plan
}

// A day makes the events of a journal, told in minutes after the job's start.
type day struct {
	w      *schedule.Winding
	events []session.Event
}

func newDay(w *schedule.Winding) *day { return newDayAt(w, 0) }

// newDayAt starts the session at another time than the job was planned for.
func newDayAt(w *schedule.Winding, minutes float64) *day {
	d := &day{w: w}
	d.add(minutes, session.Event{Kind: session.Started, Layers: len(w.Laid)})
	return d
}

// clock is in whole seconds, as a crew's log is.
func (d *day) clock(minutes float64) time.Time { return d.w.Job.Clock(quantity.Time(60 * minutes)) }

func (d *day) add(minutes float64, e session.Event) {
	e.Seq, e.At, e.Logged = len(d.events)+1, d.clock(minutes), d.clock(minutes)
	d.events = append(d.events, e)
}

func (d *day) mixed(minutes, grams float64) int {
	d.add(minutes, session.Event{Kind: session.Mixed, MassG: grams})
	return len(d.events)
}

func (d *day) poured(minutes float64, seq int) {
	d.add(minutes, session.Event{Kind: session.Poured, Pot: seq})
}

// fill mixes a pot and pours it five minutes later.
func (d *day) fill(minutes, grams float64) { d.poured(minutes+5, d.mixed(minutes, grams)) }

func (d *day) layer(kind session.Kind, minutes float64, n int) {
	d.add(minutes, session.Event{Kind: kind, Layer: n})
}

func (d *day) pause(minutes float64) {
	d.add(minutes, session.Event{Kind: session.Pause, Text: "tow broke"})
}
func (d *day) resume(minutes float64) { d.add(minutes, session.Event{Kind: session.Resume}) }

func (d *day) temperature(minutes, celsius float64) {
	d.add(minutes, session.Event{Kind: session.BathTemp, IsC: &celsius})
}

// play replays the day to a moment, and a pause from then on.
func (d *day) play(t testing.TB, minutes, pause float64) *replay.Played {
	t.Helper()
	j := replay.Journal{Winding: d.w, Events: d.events, Started: d.clock(0)}
	s, err := j.Script(d.clock(minutes), time.Duration(pause*float64(time.Minute)))
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
func (d *day) ask(t testing.TB, minutes, pause float64) *Answer {
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

// asPlanned logs a day that goes by a plan.
func asPlanned(w *schedule.Winding, p *batches.Plan) *day {
	d := newDay(w)
	minutes := func(at quantity.Time) float64 { return float64(at) / 60 }
	unit, units := 0, w.Task.Units
	for i, pour := range p.Pours {
		last := len(units)
		if i+1 < len(p.Pours) {
			last = p.Pours[i+1].Stop
		}
		inside := unit > 0 && !units[unit-1].EndsLayer
		if inside {
			d.pause(minutes(p.End[unit-1]))
		}
		if pour.Into == batches.Change {
			d.add(minutes(p.End[unit-1]), session.Event{Kind: session.Changed})
		}
		var seqs []int
		for _, pot := range pour.Pots {
			d.add(minutes(pot.MixAt), session.Event{Kind: session.Mixed, ResinG: pot.Resin.In("g"), HardenerG: pot.Hardener.In("g")})
			seqs = append(seqs, len(d.events))
		}
		for _, seq := range seqs {
			d.poured(minutes(pour.At), seq)
		}
		if inside {
			d.resume(minutes(p.Start[unit]))
		}
		for ; unit < last; unit++ {
			if unit == 0 || units[unit-1].EndsLayer {
				d.layer(session.Begin, minutes(p.Start[unit]), units[unit].Layer+1)
			}
			if units[unit].EndsLayer {
				d.layer(session.Done, minutes(p.End[unit]), units[unit].Layer+1)
			}
		}
	}
	return d
}
