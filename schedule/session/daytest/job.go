// Package daytest makes one invented job and the events of its day. It is for tests only.
//
// It imports neither replay nor advice, so that tests inside those packages can use it.
package daytest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"potlife/schedule"
	"potlife/schedule/batches"
)

// tube is a carbon tube of three layers, wound on a day with a constant room. It has no
// label, so that its record is as uncertain as the catalogue says.
const tube = `
name: Tube
resin: epoxy-ipda
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
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 900 g, change: 15 min, pour: 1 min, drum: {turns: always}, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}
pots: {smallest: 80 g, largest: 600 g, scale: 0.1 g, ratio_tolerance: 2 %, mixing: 5 min, cup: 90 mm, left_in_cup: 2 %, helper: true}
limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}
layers:
` + Layers

// Layers are the lines of the tube's layers, to be replaced by others.
const Layers = "  - {helical: 25 deg}\n  - {helical: 25 deg}\n  - hoop\n"

// Prepared is the tube with some of its text replaced, old and new in turn.
func Prepared(t testing.TB, replace ...string) *schedule.Winding {
	t.Helper()
	return read(t, "tube.yaml", tube, replace)
}

func read(t testing.TB, path, text string, replace []string) *schedule.Winding {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("the job has no %q", replace[i])
		}
	}
	source := []byte(strings.NewReplacer(replace...).Replace(text))
	job, err := schedule.ReadJob(path, source)
	if err != nil {
		t.Fatal(err)
	}
	job.Source = source
	return prepare(t, job)
}

// Labelled adds a label to the tube's text.
func Labelled(label string) (replace []string) {
	return []string{"\nlayers:", "\n" + label + "\nlayers:"}
}

// Demo is a job of testdata/jobs, which lies in a folder above the caller's.
func Demo(t testing.TB, name string) *schedule.Winding {
	t.Helper()
	return File(t, filepath.Join("jobs", name))
}

// File is a job below testdata with some of its text replaced, old and new in turn.
func File(t testing.TB, name string, replace ...string) *schedule.Winding {
	t.Helper()
	path := filepath.Join("testdata", name)
	for range 4 {
		if _, err := os.Stat(path); err == nil {
			break
		}
		path = filepath.Join("..", path)
	}
	source, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return read(t, path, string(source), replace)
}

func prepare(t testing.TB, job *schedule.Job) *schedule.Winding {
	t.Helper()
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Planned is the solution of a winding that has a plan.
func Planned(t testing.TB, w *schedule.Winding) *batches.Solution {
	t.Helper()
	s, err := w.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if !s.Feasible() {
		t.Fatalf("the job has no plan: %+v", s.Breach)
	}
	return s
}
