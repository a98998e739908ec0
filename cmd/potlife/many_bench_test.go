package main

import (
	"io"
	"strconv"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// loggedDay is a bath from which a layer is wound while a thermometer logs by itself so many times within
// the hour.
func loggedDay(tb testing.TB, readings int) *daytest.Day {
	tb.Helper()
	d := daytest.New(daytest.Prepared(tb))
	d.Fill(0, 560)
	d.Begin(6, 1)
	const every = 3 // minutes
	var is []float64
	for m := 6.0; m <= 72; m += every {
		script, err := replay.Compile(d.W, d.Events, d.Clock(m))
		if err != nil {
			tb.Fatal(err)
		}
		world, err := script.World(ensemble.Member{Rate: 1.15, Viscosity: 1, Loss: 0.95, Weight: 1})
		if err != nil {
			tb.Fatal(err)
		}
		is = append(is, world.Bath.Temperature.Celsius())
	}
	d.Logger(readings, 7, 67, func(minutes float64) float64 {
		k := int((minutes - 6) / every)
		share := (minutes-6)/every - float64(k)
		return is[k] + share*(is[k+1]-is[k])
	})
	return d
}

// potsDay is a day on which so many pots were mixed and none was poured, all within an hour.
func potsDay(tb testing.TB, pots int) *daytest.Day {
	tb.Helper()
	d := daytest.New(daytest.Prepared(tb))
	for k := range pots {
		d.Mixed(60*float64(k)/float64(pots), 80+float64(k%50))
	}
	return d
}

// BenchmarkManyEvents is what a command takes for journals as loggers write them, and for more pots than a
// hall has cups.
func BenchmarkManyEvents(b *testing.B) {
	for _, c := range []struct {
		name    string
		day     func(testing.TB) *daytest.Day
		command string
	}{
		{"check of 10,000 readings", func(tb testing.TB) *daytest.Day { return loggedDay(tb, 10_000) }, "check"},
		{"report of 10,000 readings", func(tb testing.TB) *daytest.Day { return loggedDay(tb, 10_000) }, "report"},
		{"check of 200 standing pots", func(tb testing.TB) *daytest.Day { return potsDay(tb, 200) }, "check"},
	} {
		b.Run(c.name, func(b *testing.B) {
			d := c.day(b)
			folder := d.KeepMany(b)
			args := []string{"check", "--session", folder, "--at", d.Clock(d.Last() + 1).Format(time.RFC3339)}
			if c.command == "report" {
				args = []string{"report", folder}
			}
			b.ReportAllocs()
			for b.Loop() {
				if code := run(args, io.Discard, io.Discard); code != exitDone && code != exitLimit {
					b.Fatalf("%s: exit %s", c.name, strconv.Itoa(code))
				}
			}
		})
	}
}
