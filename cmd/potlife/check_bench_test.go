package main

import (
	"io"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// reads returns a function that logs what a thermometer reads in a hidden bath, with a noise
// in K.
func reads(tb testing.TB, d *daytest.Day) func(minutes, noise float64) {
	return func(minutes, noise float64) {
		tb.Helper()
		script, err := replay.Compile(d.W, d.Events, d.Clock(minutes))
		if err != nil {
			tb.Fatal(err)
		}
		world, err := script.World(ensemble.Member{Rate: 1.2, Viscosity: 1, Loss: 0.9, Weight: 1})
		if err != nil {
			tb.Fatal(err)
		}
		d.Temperature(minutes, world.Bath.Temperature.Celsius()+noise)
	}
}

// BenchmarkCheckLongDay is check as one command on a journal of 500 events, from opening the
// folder to the last line of the answer. The journal is an old one, that keeps no plan: most of the time goes
// into the plan of its morning. BenchmarkManyEvents has one that keeps it.
func BenchmarkCheckLongDay(b *testing.B) {
	d := daytest.New(daytest.Prepared(b, daytest.Alike(62, 8)...))
	d.LongDay(reads(b, d))
	d.Events = d.Events[:len(d.Events)-1] // in the last layer somebody asks
	args := []string{"check", "--session", d.Keep(b), "--at", d.Clock(d.Last() + 1).Format(time.RFC3339)}
	b.ReportAllocs()
	for b.Loop() {
		if code := run(args, io.Discard, io.Discard); code != exitDone && code != exitLimit {
			b.Fatalf("exit %d", code)
		}
	}
	b.ReportMetric(float64(len(d.Events)), "events")
}
