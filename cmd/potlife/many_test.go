package main

import (
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/inforce"
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

// longDay is one of 500 events, within its last layer, that keeps the plan of its morning as every session does
// that is started.
func longDay(tb testing.TB) *daytest.Day {
	tb.Helper()
	d := daytest.New(daytest.Prepared(tb, daytest.Alike(62, 8)...))
	plan, err := inforce.Morning(d.W)
	if err != nil || plan == nil {
		tb.Fatalf("no plan, %v", err)
	}
	d.Keeps(plan)
	d.LongDay(reads(tb, d))
	d.Events = d.Events[:len(d.Events)-1]
	return d
}

// manyEvents are commands on journals as loggers write them, on a long day, and with more pots than a hall has
// cups. Their names are rows of the table in DEVELOPERS.md; the part of a day, 1 being all, keeps a test short.
var manyEvents = []struct {
	name, session, command string
	day                    func(tb testing.TB, part int) *daytest.Day
}{
	{"check of 500 events", "long", "check", func(tb testing.TB, _ int) *daytest.Day { return longDay(tb) }},
	{"check of 10,000 readings", "readings", "check", func(tb testing.TB, part int) *daytest.Day { return loggedDay(tb, 10_000/part) }},
	{"report of 10,000 readings", "readings", "report", func(tb testing.TB, part int) *daytest.Day { return loggedDay(tb, 10_000/part) }},
	{"check of 200 standing pots", "pots", "check", func(tb testing.TB, part int) *daytest.Day { return potsDay(tb, 200/part) }},
}

// keepMany writes the sessions of manyEvents and returns the words of each command line.
func keepMany(tb testing.TB, part int) [][]string {
	tb.Helper()
	kept := map[string][2]string{} // folder, and a minute after the last event
	var lines [][]string
	for _, c := range manyEvents {
		if kept[c.session][0] == "" {
			d := c.day(tb, part)
			kept[c.session] = [2]string{d.KeepMany(tb), d.Clock(d.Last() + 1).Format(time.RFC3339)}
		}
		folder, at := kept[c.session][0], kept[c.session][1]
		if c.command == "report" {
			lines = append(lines, []string{"report", folder})
			continue
		}
		lines = append(lines, []string{c.command, "--session", folder, "--at", at})
	}
	return lines
}

func BenchmarkManyEvents(b *testing.B) {
	lines := keepMany(b, 1)
	for i, c := range manyEvents {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mustRun(b, lines[i]...)
			}
		})
	}
}

// TestManyEvents: each command answers. For testdata/reference/speed.sh it keeps the whole sessions in the folder that
// POTLIFE_SPEED names, with the command lines.
func TestManyEvents(t *testing.T) {
	folder := os.Getenv("POTLIFE_SPEED")
	if folder == "" {
		for i, line := range keepMany(t, 50) {
			if code := run(line, io.Discard, io.Discard); code != exitDone && code != exitLimit {
				t.Errorf("%s: exit %d", manyEvents[i].name, code)
			}
		}
		return
	}
	lines := map[string][]string{}
	for i, line := range keepMany(t, 1) {
		c := manyEvents[i]
		kept := filepath.Join(folder, c.session+".session")
		for k, word := range line {
			if info, err := os.Stat(word); err == nil && info.IsDir() {
				if _, err := os.Stat(kept); err != nil {
					if err := os.CopyFS(kept, os.DirFS(word)); err != nil {
						t.Fatal(err)
					}
				}
				line[k] = kept
			}
		}
		lines[c.name] = line
	}
	text, err := json.Marshal(lines)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "many.json"), text, 0o600); err != nil {
		t.Fatal(err)
	}
}
