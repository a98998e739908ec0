package schedule_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/schedule"
)

const (
	strut = "../testdata/jobs/telescope-strut.yaml"
	shell = "../testdata/jobs/softener-shell.yaml"
)

func loadJob(t *testing.T, path string) *schedule.Job {
	t.Helper()
	job, err := schedule.LoadJob(path)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// exampleFile is where the example would stand: paths start from its folder.
const exampleFile = "../testdata/jobs/example.yaml"

// example is the job of the project's design page.
const example = `name: Telescope strut
resin: epoxy-ipda
datasheet:
  pot_life: {time: 60 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: gel}
  viscosity: {value: 600 mPa·s, at: 25 °C}
fibre: carbon-12k
fibre_fraction: 62 % by mass
pick_up: 1.0
bleed: 0 %
resin_at: 20 °C
refill: layers
zone: local
room: 22 °C
start: 2026-11-28 09:00
mandrel: {diameter: 90 mm, length: 1600 mm, temperature: 22 °C}
ends: {fibre: 4 m, per: layer}
machine: {tows: 1, band: 4 mm, tow_speed: 15 m/min, spindle: 60 rpm, turnaround: 180 deg, between_layers: 3 min}
bath: {length: 300 mm, width: 120 mm, lowest: 120 g, highest: 700 g, change: 15 min, pour: 1 min, drum: {turns: always}, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}
pots: {smallest: 80 g, largest: 250 g, scale: 0.1 g, ratio_tolerance: 2 %, mixing: 5 min, cup: 90 mm, left_in_cup: 2 %, helper: true}
limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}
layers:
  - {helical: 25 deg}
  - {helical: 25 deg}
  - hoop
  - {helical: 45 deg, time: 24 min, tow: 240 m}
  - {helical: 25 deg}
  - hoop
`

// readJob is the example with parts of its text replaced, old and new in turn.
func readJob(t *testing.T, replace ...string) (*schedule.Job, error) {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(example, replace[i]) {
			t.Fatalf("the example has no %q", replace[i])
		}
	}
	return schedule.ReadJob(exampleFile, []byte(strings.NewReplacer(replace...).Replace(example)))
}

func soundJob(t *testing.T, replace ...string) *schedule.Job {
	t.Helper()
	job, err := readJob(t, replace...)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// near tells whether a quantity read from a file is the one written, but for
// the rounding of a unit.
func near[Q ~float64](got, want Q) bool {
	return math.Abs(float64(got-want)) <= 1e-12*math.Max(1, math.Abs(float64(want)))
}

// TestDemos: both demos are read and can be prepared; their layers are
// numbered, and each rests on a label.
func TestDemos(t *testing.T) {
	for _, path := range []string{strut, shell} {
		j := loadJob(t, path)
		w := prepare(t, j)
		if j.File != path || len(w.Laid) < 6 || len(w.Laid) != len(j.Layers) || len(w.Task.Units) < len(w.Laid) {
			t.Errorf("%s: %d layers laid of %d, in %d units", j.File, len(w.Laid), len(j.Layers), len(w.Task.Units))
		}
		for i, l := range j.Layers {
			if !strings.HasPrefix(l.Name, fmt.Sprintf("%d ", i+1)) {
				t.Errorf("%s: layer %d is called %q", path, i+1, l.Name)
			}
		}
		if !j.HasLabel || w.Record.Generic() || len(w.Record.Calibrated) == 0 {
			t.Errorf("%s: the speed is generic: %v, calibrated by %q", path, w.Record.Generic(), w.Record.Calibrated)
		}
	}
}

// TestExample: every key of the design's example is read as it is written.
func TestExample(t *testing.T) {
	j := soundJob(t)
	if j.Name != "Telescope strut" || j.Resin != "epoxy-ipda" || j.ResinPath() != "epoxy-ipda" || j.Fibre.Name != "carbon-12k" {
		t.Errorf("%q of %q and %q", j.Name, j.Resin, j.Fibre.Name)
	}
	if !j.HasLabel || !j.Label.HasPotLife || !j.Label.HasViscosity || !j.Label.HasIn || !j.Label.End.Gel || !near(j.Label.Time, 3600) || !near(j.Label.In.Cup, 0.07) {
		t.Errorf("label %+v", j.Label)
	}
	if !near(float64(j.FibreFraction.Value), 0.62) || j.FibreFraction.Basis != resins.ByMass || j.PickUp != 1 || j.Bleed != 0 {
		t.Errorf("fraction %v, pick-up %g, bleed %v", j.FibreFraction, j.PickUp, j.Bleed)
	}
	if !near(j.ResinAt, quantity.Celsius(20)) || !near(j.Mandrel.Temperature, quantity.Celsius(22)) || j.Circuits {
		t.Errorf("resin at %v, mandrel at %v, circuits %v", j.ResinAt, j.Mandrel.Temperature, j.Circuits)
	}
	if got := j.Start.Format("2006-01-02 15:04"); got != "2026-11-28 09:00" {
		t.Errorf("starts %s", got)
	}
	if m := j.Machine; m.Tows != 1 || !near(m.Band, 0.004) || !near(m.TowSpeed, 0.25) || !near(m.Spindle, 2*math.Pi) || !near(m.Turnaround, math.Pi) || !near(m.BetweenLayers, 180) {
		t.Errorf("machine %+v", m)
	}
	if b := j.Bath; !near(b.Length, 0.3) || !near(b.Lowest, 0.12) || !near(b.Highest, 0.7) || !near(b.Change, 900) || !near(b.Pour, 60) || b.Drum != resins.Turning || b.HasJacket {
		t.Errorf("bath %+v", b)
	}
	if p := j.Pots; !near(p.Scale, 1e-4) || !near(float64(p.RatioTolerance), 0.02) || !near(float64(p.LeftInCup), 0.02) || !p.Helper {
		t.Errorf("pots %+v", p)
	}
	if len(j.Layers) != 6 {
		t.Fatalf("%d layers", len(j.Layers))
	}
	if l := j.Layers[2]; !l.Hoop || l.Angle != 0 || l.Name != "3 hoop" {
		t.Errorf("third layer %+v", l)
	}
	if l := j.Layers[3]; l.Hoop || !near(l.Angle, math.Pi/4) || !near(l.Time, 1440) || !near(l.Tow, 240) {
		t.Errorf("measured layer %+v", l)
	}
}

// TestUsualFigures: what a job leaves out takes the usual figures.
func TestUsualFigures(t *testing.T) {
	j := soundJob(t,
		"limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}\n", "",
		"pick_up: 1.0\nbleed: 0 %\nresin_at: 20 °C\nrefill: layers\nzone: local\n", "",
		", ratio_tolerance: 2 %", "", ", drum: {turns: always}", "", ", left_in_cup: 2 %, helper: true", "",
		"ends: {fibre: 4 m, per: layer}", "ends: {fibre: 4 m}")
	if !near(j.Limits.Reserve, 600) || !near(float64(j.Pots.RatioTolerance), 0.02) || j.PickUp != 1 || j.Circuits || j.Ends.Per != "layer" {
		t.Errorf("reserve %v, tolerance %v, pick-up %g, circuits %v, ends per %s", j.Limits.Reserve, j.Pots.RatioTolerance, j.PickUp, j.Circuits, j.Ends.Per)
	}
	if j.Bath.Drum != (resins.Drum{Turns: resins.WithTow}) || j.Pots.Helper || j.Pots.LeftInCup != 0 || j.ResinAt != 0 {
		t.Errorf("drum %v, helper %v, left %v, resin at %v", j.Bath.Drum, j.Pots.Helper, j.Pots.LeftInCup, j.ResinAt)
	}
}

// TestLayersAsWritten: repeats are written out, every name begins with the
// layer's number.
func TestLayersAsWritten(t *testing.T) {
	j := soundJob(t, "  - {helical: 25 deg}\n  - {helical: 25 deg}\n", "  - {helical: 25 deg, repeat: 3, name: long}\n  - {hoop: true, repeat: 2}\n")
	var names []string
	for _, l := range j.Layers {
		names = append(names, l.Name)
	}
	want := "1 long|2 long|3 long|4 hoop|5 hoop|6 hoop|7 helical 45°|8 helical 25°|9 hoop"
	if got := strings.Join(names, "|"); got != want {
		t.Errorf("layers %s\nwant   %s", got, want)
	}
}

// TestFibreOfOneOwn: a fibre by its density and tex takes the heat capacity of
// its kind.
func TestFibreOfOneOwn(t *testing.T) {
	j := soundJob(t, "fibre: carbon-12k", "fibre: {density: 2.6 g/cm³, tex: 1200}")
	if f := j.Fibre; !near(f.Density, 2600) || !near(f.Tex, 1.2e-3) || !near(f.HeatCapacity, 800) {
		t.Errorf("fibre %+v", f)
	}
}

// TestResinPath: a resin's path starts from the job's folder, not from here.
func TestResinPath(t *testing.T) {
	for written, want := range map[string]string{
		"../resins/club-epoxy-slow.yaml": "../testdata/resins/club-epoxy-slow.yaml",
		"own.yaml":                       "../testdata/jobs/own.yaml",
		"/tmp/own.yaml":                  "/tmp/own.yaml",
		"epoxy-teta":                     "epoxy-teta",
	} {
		if got := soundJob(t, "resin: epoxy-ipda", "resin: "+written).ResinPath(); got != want {
			t.Errorf("%s leads to %s, want %s", written, got, want)
		}
	}
}

// TestTooManyLayers: a slip of the pen that would plan for hours is told.
func TestTooManyLayers(t *testing.T) {
	_, err := readJob(t, "  - {helical: 25 deg}\n  - {helical: 25 deg}\n", strings.Repeat("  - {hoop: true, repeat: 5000}\n", 3))
	var faults *document.Faults
	if !errors.As(err, &faults) || len(faults.List) != 1 || !strings.Contains(faults.List[0].Problem, "layers are more than") {
		t.Errorf("got %v", err)
	}
}
