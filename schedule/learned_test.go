package schedule_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"potlife/kinetics/warning"
	"potlife/schedule"
)

// TestLearnedRoundTrip: what is written reads back, to the digits that are written.
func TestLearnedRoundTrip(t *testing.T) {
	l := &schedule.Learned{
		File: "strut.learned.yaml", Name: "A strut: long", Resin: "epoxy-ipda",
		PickUp:     schedule.Lesson{Value: 1.1234, Spread: 1.067, Sessions: 8},
		Reactivity: schedule.Lesson{Value: 0.8567, Spread: 1.12, Sessions: 7},
		LeftInCup:  schedule.Lesson{Value: 0.0234, Spread: 1.4, Sessions: 2},
	}
	got, err := schedule.ReadLearned(l.File, l.YAML())
	if err != nil {
		t.Fatal(err)
	}
	if got.Name != l.Name || got.Resin != l.Resin || got.Minutes.Known() {
		t.Errorf("read back as %+v", got)
	}
	for _, c := range []struct {
		name      string
		got, want schedule.Lesson
		digit     float64
	}{{"pick-up", got.PickUp, l.PickUp, 5e-4}, {"reactivity", got.Reactivity, l.Reactivity, 5e-4}, {"in cups", got.LeftInCup, l.LeftInCup, 5e-5}} {
		if !(math.Abs(c.got.Value-c.want.Value) <= c.digit*1.0001) || c.got.Sessions != c.want.Sessions || !(math.Abs(c.got.Spread-c.want.Spread) <= 5e-3) {
			t.Errorf("%s reads back as %+v, not %+v", c.name, c.got, c.want)
		}
	}
}

// learnedJob is the strut with a file of lessons beside it.
func learnedJob(t *testing.T, lessons string) (*schedule.Winding, error) {
	t.Helper()
	dir := t.TempDir()
	source, err := os.ReadFile(filepath.Join("..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "strut.yaml")
	text := strings.Replace(string(source), "fibre: carbon-12k", "learned: ./strut.learned.yaml\nfibre: carbon-12k", 1)
	for name, content := range map[string]string{path: text, filepath.Join(dir, "strut.learned.yaml"): lessons} {
		if err := os.WriteFile(name, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	job, err := schedule.LoadJob(path)
	if err != nil {
		t.Fatal(err)
	}
	return schedule.Prepare(job)
}

// TestAJobUsesItsLessons: resin, times, cups and the speed of the cure are as they were
// learned, the spread of time too, and the plan says so.
func TestAJobUsesItsLessons(t *testing.T) {
	plain, err := learnedJob(t, "name: nothing learned\n")
	if err != nil {
		t.Fatal(err)
	}
	w, err := learnedJob(t, `
pick_up: {value: 1.10, spread: 1.05, sessions: 3}
reactivity: {value: 0.80, spread: 1.10, sessions: 2}
minutes_factor: {value: 1.25, spread: 1.1, sessions: 3}
left_in_cup: {value: 3 %, spread: 1.5, sessions: 1}
`)
	if err != nil {
		t.Fatal(err)
	}
	for i := range w.Laid {
		for what, ratio := range map[string][2]float64{
			"resin": {float64(w.Laid[i].Resin / plain.Laid[i].Resin), 1.10},
			"time":  {float64(w.Laid[i].Time / plain.Laid[i].Time), 1.25},
		} {
			if !(math.Abs(ratio[0]-ratio[1]) <= 1e-12) {
				t.Errorf("layer %d takes %.4f times the %s, not %.2f", i+1, ratio[0], what, ratio[1])
			}
		}
	}
	before, now := plain.Task.Resin.CureRate(0.2, 300), w.Task.Resin.CureRate(0.2, 300)
	if !(math.Abs(now/before-0.80) <= 1e-12) {
		t.Errorf("the resin cures %.4f times as fast", now/before)
	}
	if w.Task.Spread.Time != 1.10 || w.Task.Pots.LeftInCup != 0.03 {
		t.Errorf("a spread of %g, %g left in cups", w.Task.Spread.Time, w.Task.Pots.LeftInCup)
	}
	want := schedule.LessonsUsed{
		PickUp: schedule.Lesson{Value: 1.10, Spread: 1.05, Sessions: 3}, Reactivity: schedule.Lesson{Value: 0.80, Spread: 1.10, Sessions: 2},
		Minutes: schedule.Lesson{Value: 1.25, Spread: 1.1, Sessions: 3}, LeftInCup: schedule.Lesson{Value: 0.03, Spread: 1.5, Sessions: 1},
	}
	want.OfJob.PickUp, want.OfJob.LeftInCup = plain.Job.PickUp, plain.Job.Pots.LeftInCup
	if !slices.Contains(w.Warnings, warning.Warning(want)) {
		t.Errorf("the plan does not say what it learned: %+v", w.Warnings)
	}
}

// TestLessonsOfAnotherResin: its reactivity is left out, and said to be.
func TestLessonsOfAnotherResin(t *testing.T) {
	w, err := learnedJob(t, "resin: epoxy-teta\nreactivity: {value: 0.8, spread: 1.1, sessions: 2}\n")
	if err != nil {
		t.Fatal(err)
	}
	plain, err := learnedJob(t, "name: nothing\n")
	if err != nil {
		t.Fatal(err)
	}
	if w.Task.Resin.CureRate(0.2, 300) != plain.Task.Resin.CureRate(0.2, 300) {
		t.Error("the reactivity of another resin is used")
	}
	if want := (schedule.LessonsOfOtherResin{File: w.Learned.File, Resin: "epoxy-teta", Record: w.Record.Name}); !slices.Contains(w.Warnings, warning.Warning(want)) {
		t.Errorf("nothing is said of it: %+v", w.Warnings)
	}
}

// TestLessonsWithFaults: a slip of the pen shows its place and the nearest key.
func TestLessonsWithFaults(t *testing.T) {
	for lessons, want := range map[string]string{
		"pick_ups: {value: 1.1, spread: 1.1, sessions: 1}\n":     "pick_up",
		"pick_up: {value: 11, spread: 1.1, sessions: 1}\n":       "strut.learned.yaml:1",
		"left_in_cup: {value: 0.02, spread: 1.1, sessions: 1}\n": "%",
		"reactivity: {value: 0.8, spread: 0.9, sessions: 1}\n":   "spread",
		"minutes_factor: {value: 1.1, spread: 1.1}\n":            "sessions",
	} {
		if _, err := learnedJob(t, lessons); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, which does not say %q", lessons, err, want)
		}
	}
}
