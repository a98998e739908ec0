package main

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// longJob has as many layers as make some 500 events.
const longJob = `
name: Long
resin: epoxy-ipda
fibre: carbon-12k
fibre_fraction: 62 % by mass
zone: UTC
room: 23 °C
start: 2026-11-21 06:00
mandrel: {diameter: 90 mm, length: 1600 mm}
machine: {tows: 1, band: 4 mm, tow_speed: 9 m/min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 900 g, change: 15 min, pour: 1 min}
pots: {smallest: 30 g, largest: 600 g, scale: 0.1 g, mixing: 5 min, cup: 90 mm}
layers:
  - {helical: 45 deg, time: 8 min, tow: 60 m, repeat: 62}
`

// A diary logs into a session what happens on a long day.
type diary struct {
	tb      testing.TB
	session *session.Session
	winding *schedule.Winding
	now     time.Time
	events  int
}

func newDiary(tb testing.TB, folder string) *diary {
	tb.Helper()
	file := filepath.Join(folder, "long.yaml")
	if err := os.WriteFile(file, []byte(longJob), 0o600); err != nil {
		tb.Fatal(err)
	}
	job, err := schedule.LoadJob(file)
	if err != nil {
		tb.Fatal(err)
	}
	winding, err := schedule.Prepare(job)
	if err != nil {
		tb.Fatal(err)
	}
	s, _, err := session.Start(job, session.CopiesOf(winding), job.Start, job.Start)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = s.Close() })
	return &diary{tb: tb, session: s, winding: winding, now: job.Start, events: 1}
}

// after lets time pass and logs an event.
func (d *diary) after(minutes float64, e session.Event) {
	d.tb.Helper()
	d.now = d.now.Add(time.Duration(minutes * float64(time.Minute)))
	e.At, e.Logged = d.now, d.now
	if _, err := d.session.Log(e); err != nil {
		d.tb.Fatal(err)
	}
	d.events++
}

// read lets time pass and logs what a thermometer says that is off by the noise in K, in a
// hidden bath.
func (d *diary) read(minutes, noise float64) {
	d.tb.Helper()
	events, err := d.session.Events()
	if err != nil {
		d.tb.Fatal(err)
	}
	script, err := replay.Compile(d.winding, events, d.now.Add(time.Duration(minutes*float64(time.Minute))))
	if err != nil {
		d.tb.Fatal(err)
	}
	world, err := script.World(ensemble.Member{Rate: 1.2, Viscosity: 1, Loss: 0.9, Weight: 1})
	if err != nil {
		d.tb.Fatal(err)
	}
	celsius := world.Bath.Temperature.Celsius() + noise
	d.after(minutes, session.Event{Kind: session.BathTemp, IsC: &celsius})
}

// longDay logs some 500 events: 62 layers, each with a pot, a pause and two readings, and a
// change of the bath after every fifteen.
func longDay(tb testing.TB, folder string) *diary {
	tb.Helper()
	d := newDiary(tb, folder)
	for k := range 62 {
		grams := 35.0
		if k%15 == 0 {
			grams = 250
		}
		d.after(0.5, session.Event{Kind: session.Mixed, MassG: grams})
		d.after(5, session.Event{Kind: session.Poured})
		d.after(1, session.Event{Kind: session.Begin})
		d.read(2, 0.4*math.Sin(float64(k)))
		d.after(1, session.Event{Kind: session.Pause, Text: "x"})
		d.after(1, session.Event{Kind: session.Resume})
		d.read(2, 0.4*math.Cos(float64(3*k)))
		if k == 61 {
			break // in the last layer somebody asks
		}
		d.after(3, session.Event{Kind: session.Done})
		if k%15 == 14 {
			d.after(1, session.Event{Kind: session.Changed})
		}
	}
	return d
}

// BenchmarkCheckLongDay is check as one command on a journal of 500 events, from opening the
// folder to the last line of the answer.
func BenchmarkCheckLongDay(b *testing.B) {
	d := longDay(b, b.TempDir())
	args := []string{"check", "--session", d.session.Folder, "--at", d.now.Add(time.Minute).Format(time.RFC3339)}
	b.ReportAllocs()
	for b.Loop() {
		if code := run(args, io.Discard, io.Discard); code != exitDone && code != exitLimit {
			b.Fatalf("exit %d", code)
		}
	}
	b.ReportMetric(float64(d.events), "events")
}
