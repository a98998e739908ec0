package schedule_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document/documenttest"
	"potlife/resins/fit"
	"potlife/schedule"
)

func catalogued(f *testing.F, name string) *resins.Record {
	r, err := resins.Load(name)
	if err != nil {
		f.Fatal(err)
	}
	return r
}

func seedFiles(f *testing.F, patterns ...string) {
	for _, pattern := range patterns {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(source)
		}
	}
}

// FuzzJob: whatever the file, the answer is faults that lie in it, or a job that is finite
// and within its bounds, and of which the layers can be laid: what the stops take is what
// the layers take. Neither costs more than a large job does.
func FuzzJob(f *testing.F) {
	seedFiles(f, "../testdata/jobs/*.yaml", "../testdata/jobs/bad/*.yaml", "../testdata/sessions/*.yaml")
	strut, err := os.ReadFile("../testdata/jobs/telescope-strut.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, change := range [][2]string{
		{"- {helical: 25 deg}", strings.Repeat("- {helical: 25 deg, repeat: 5000}\n  ", 40) + "- hoop"},
		{"refill: layers", "refill: circuits\nbleed: 60 %"},
		{"room: 23 °C", "room: [{at: 09:00, is: 19 °C}, {at: 08:00, is: 24 °C}, {at: 2026-12-24 09:00, is: 24 °C}]"},
		{"start: 2026-11-28 09:00", "start: 0000-01-01 00:00"},
		{"start: 2026-11-28 09:00", "start: 9999-12-31 23:59"},
		{"zone: local", "zone: Europe/Berlin"},
		{"length: 300 mm, width: 120 mm", "cup: 1e-290 mm"},
		{"lowest: 120 g", "lowest: 1e-290 g"},
		{"band: 4 mm", "band: 0.2 mm"},
		{"tow: 240 m", "tow: 1e-290 mm"},
		{"spindle: 60 rpm", "spindle: 1e-290 rpm"},
		{"62 % by mass", "1e-290 % by mass"},
		{"helical: 45 deg", "helical: 89.99 deg"},
		{"fibre: carbon-12k", "fibre: {density: 1.8 g/cm³, tex: 800}"},
		{"scale: 0.1 g", "scale: 0.001 g"},
	} {
		text := strings.Replace(string(strut), change[0], change[1], 1)
		if text == string(strut) {
			f.Fatalf("the job has no %s", change[0])
		}
		f.Add([]byte(text))
	}
	record := catalogued(f, "epoxy-ipda")
	f.Fuzz(func(t *testing.T, source []byte) { jobHolds(t, record, source) })
}

// jobHolds is what FuzzJob and TestJobsAmiss hold a file to.
func jobHolds(t *testing.T, record *resins.Record, source []byte) {
	t.Helper()
	documenttest.Bounded(t, source, func() {
		job, err := schedule.ReadJobIn("job.yaml", source, schedule.Place{Local: time.UTC})
		if err != nil {
			documenttest.Faults(t, string(source), err)
			return
		}
		documenttest.Finite(t, job)
		if n := len(job.Layers); n == 0 || n > 10_000 || job.Start.IsZero() {
			t.Fatalf("%d layers from %v", n, job.Start)
		}
		job.HasLabel = false // FuzzLabel: it takes a hundred times as long
		w, err := schedule.PrepareWith(job, record, nil)
		if err != nil {
			documenttest.Faults(t, string(source), err)
			return
		}
		laid(t, w)
		documenttest.Finite(t, w.Warnings)
	})
}

// laid holds layers and stops to each other.
func laid(t *testing.T, w *schedule.Winding) {
	t.Helper()
	documenttest.Finite(t, w.Laid)
	documenttest.Finite(t, w.Task)
	var layers, stops [3]float64 // seconds, kg of resin, kg of fibre
	for _, l := range w.Laid {
		if !(l.Time > 0 && l.Resin > 0 && l.Fibre > 0 && l.Circuits > 0 && l.Path > 0) {
			t.Fatalf("laid %+v", l)
		}
		layers[0] += float64(l.Time)
		layers[1] += float64(l.Resin)
		layers[2] += float64(l.Fibre)
	}
	for _, u := range w.Task.Units {
		stops[0] += float64(u.Time)
		stops[1] += float64(u.Resin)
		stops[2] += float64(u.FibreWeight)
	}
	for i := range layers {
		if !(math.Abs(stops[i]/layers[i]-1) <= 1e-9) { // sums of some ten thousand parts
			t.Fatalf("the stops take %g, the layers %g", stops, layers)
		}
	}
}

// FuzzMappings: the mappings of the command line. What is read is finite, and the vessel
// has a size in which resin stands at some depth.
func FuzzMappings(f *testing.F) {
	for _, text := range []string{
		"{cup: 90 mm}", "{cup: 1e-290 mm}", "{length: 300 mm, width: 120 mm, drum: {turns: always}, surface_loss: 10 W/(m²·K), wall_loss: 1e-290 W/(m²·K)}", "{cup: 90 mm, jacket: 35 °C, lowest: -1 kg, loss_spread: 10}",
		"{length: 300 mm}", "{cup: 90 mm, width: 1 mm}", "cup: 90 mm\ndrum: none", "{bath_viscosity: 1500 mPa·s, laid_viscosity: 1e-290 Pa·s, bath_temperature: 40 °C, reserve: 0 s}",
		"{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {cup: 60 mm}, end: gel}, viscosity: {value: 650 mPa·s, at: 25 °C}}", "{", "", "{cup: 90mm}#", "@x",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if bath, _, err := schedule.ReadVessel("--vessel", text); err != nil {
			documenttest.Faults(t, text, err)
		} else {
			documenttest.Finite(t, bath)
			v := bath.Vessel(bath.HasJacket)
			documenttest.Finite(t, v)
			for _, mass := range []quantity.Mass{schedule.LeastMass, schedule.GreatestMass} {
				if depth := v.Depth(mass, 1100); !(depth > 0) || math.IsInf(float64(depth), 0) || !(v.SurfaceLoss > 0 && v.WallLoss > 0) {
					t.Fatalf("%v stands %v deep in %+v", mass, depth, v)
				}
			}
		}
		if limits, _, err := schedule.ReadLimits("--limits", text); err != nil {
			documenttest.Faults(t, text, err)
		} else if documenttest.Finite(t, limits); !(limits.Reserve >= 0 && limits.BathViscosity >= 0 && limits.LaidViscosity >= 0) {
			t.Fatalf("%+v", limits)
		}
		if label, _, err := schedule.ReadLabel("--datasheet", text); err != nil {
			documenttest.Faults(t, text, err)
		} else {
			documenttest.Finite(t, label)
		}
	})
}

// FuzzLabel: whatever a label says, the record is scaled to it, finite, and can be written
// and read again; or the label is told to be impossible.
func FuzzLabel(f *testing.F) {
	for _, text := range []string{
		"{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {cup: 60 mm}, end: gel}, viscosity: {value: 650 mPa·s, at: 25 °C}}",
		"{pot_life: {time: 10 s, mass: 50 kg, at: 150 °C, end: doubled}}", "{pot_life: {time: 30 d, mass: 1 g, at: -20 °C, in: {length: 20 m, width: 20 m}, end: gel}}",
		"{pot_life: {time: 85 min, mass: 100 g, at: 23 °C, in: {cup: 5 mm, drum: {turns: always}}, end: 1500 mPa·s}}", "{pot_life: {time: 85 min, mass: 100 g, at: 23 °C, in: {cup: 70 mm}, end: 40 °C}}",
		"{viscosity: {value: 1 mPa·s, at: -20 °C}}", "{pot_life: {time: 45 min, mass: 100 g, at: 23 °C, end: 1e-290 Pa·s}}",
	} {
		f.Add(text, byte(0))
	}
	var records []*resins.Record
	for _, name := range []string{"epoxy-ipda", "epoxy-mthpa", "epoxy-teta"} {
		records = append(records, catalogued(f, name))
	}
	f.Fuzz(func(t *testing.T, text string, which byte) {
		label, _, err := schedule.ReadLabel("--datasheet", text)
		if err != nil {
			return // FuzzMappings
		}
		c, err := fit.Calibrate(records[int(which)%len(records)], label)
		if err != nil {
			told, ok := err.(interface {
				Problem() string
				Mend() string
			})
			if !ok || told.Problem() == "" || told.Mend() == "" {
				t.Fatalf("%v is no refusal with a mend", err)
			}
			return
		}
		documenttest.Finite(t, c)
		if !(c.TimeFactor > 0 && c.ViscosityFactor > 0) {
			t.Fatalf("factors %g and %g", c.TimeFactor, c.ViscosityFactor)
		}
		if _, err := resins.Read("again.yaml", c.Record.File()); err != nil {
			t.Fatalf("written as\n%s\nit is refused: %v", c.Record.File(), err)
		}
		for _, w := range append(c.Warnings, c.LeftOut...) {
			documenttest.Finite(t, w)
			values, err := json.Marshal(w)
			if again, known := fit.LabelWarning(w.Code(), values); err != nil || !known || again != w {
				t.Fatalf("%+v is kept as %s and read as %+v, %v", w, values, again, err)
			}
		}
	})
}

// FuzzLearned: whatever the file of lessons, the answer is faults that lie in it, or lessons
// within their bounds that are written and read again as the same, but for digits.
func FuzzLearned(f *testing.F) {
	for _, text := range []string{
		"name: \"Strut\"\nresin: \"epoxy-ipda\"\npick_up: {value: 1.043, spread: 1.08, sessions: 3}\nreactivity: {value: 0.9, spread: 1.2, sessions: 3}\nminutes_factor: {value: 1.1, spread: 1.1, sessions: 2}\nleft_in_cup: {value: 2.1 %, spread: 1.5, sessions: 4}\n",
		"", "name: \"a\\u200bb\"", "pick_up: {value: 5, spread: 10, sessions: 100000}\nleft_in_cup: {value: 0 %, spread: 1, sessions: 1}", "resin: x\nreactivity: {value: 20, spread: 1, sessions: 1e5}",
		"name: \"a\\tb\\\"c\\\\ \\U000e0001 \U000e0001 é\"\nminutes_factor: {value: 0.1, spread: 9.999, sessions: 1}",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		l, err := schedule.ReadLearned("x.learned.yaml", source)
		if err != nil {
			documenttest.Faults(t, string(source), err)
			return
		}
		documenttest.Finite(t, l)
		again, err := schedule.ReadLearned("again.yaml", l.YAML())
		if err != nil {
			t.Fatalf("written as\n%s\nit is refused: %v", l.YAML(), err)
		}
		if again.Name != l.Name || again.Resin != l.Resin {
			t.Fatalf("%q of %q is read again as %q of %q", l.Name, l.Resin, again.Name, again.Resin)
		}
		for i, pair := range [][2]schedule.Lesson{{l.PickUp, again.PickUp}, {l.Reactivity, again.Reactivity}, {l.Minutes, again.Minutes}, {l.LeftInCup, again.LeftInCup}} {
			was, is := pair[0], pair[1]
			digit := []float64{5e-4, 5e-4, 5e-4, 5e-5}[i] // half the last one written
			if !was.Known() || was.Value <= digit {
				continue
			}
			// The spread has three digits.
			if !(math.Abs(is.Value-was.Value) <= digit*(1+1e-9)) || !(math.Abs(is.Spread/was.Spread-1) <= 5e-3) || is.Sessions != was.Sessions {
				t.Fatalf("%+v is read again as %+v", was, is)
			}
		}
	})
}

// FuzzMoment: whatever is told as a time, the answer is a refusal with a mend, or a moment
// that a clock in the zone shows as it was told, that a journal can hold, and that is read
// again from its own full form.
func FuzzMoment(f *testing.F) {
	zones := []string{"UTC", "Europe/Berlin", "Australia/Lord_Howe", "Asia/Kolkata", "Pacific/Apia", "America/St_Johns"}
	for i, text := range []string{
		"", "14:05", "14:05:07", "2026-11-28 14:05", "2026-10-25 02:30", "2026-03-29 02:30", "2026-11-28T14:05:00+01:00", "2026-11-28T14:05:00.123456789Z", "24:00", "0000-01-01 00:00",
		"9999-12-31T23:59:59-23:59", "0000-01-01T00:00:00+23:59", "2011-12-30 12:00", "2026-04-05 01:45", "noon", "02:30",
		"02:30 +0100", "02:30+02", "2026-10-25 02:30 CET", "14:05 Z", "02:30 -9999",
	} {
		f.Add(text, byte(i), int64(1795856700))
	}
	f.Fuzz(func(t *testing.T, text string, place byte, unix int64) {
		zone, err := time.LoadLocation(zones[int(place)%len(zones)])
		if err != nil {
			t.Fatal(err)
		}
		now := time.Unix(1.5e9+((unix%1e9)+1e9)%1e9, 0) // 2017 to 2049
		at, err := schedule.ParseMoment("--at", text, now, zone)
		if err != nil {
			if problem, mend, _ := strings.Cut(err.Error(), "\n   "); !strings.HasPrefix(problem, "--at: ") || mend == "" || strings.ContainsAny(problem, "\n\r\x1b") {
				t.Fatalf("%q: %q is no refusal with a mend", text, err)
			}
			return
		}
		if _, err := json.Marshal(at); err != nil {
			t.Fatalf("%q is %v, which no journal holds: %v", text, at, err)
		}
		again, err := schedule.ParseMoment("--at", at.Format(time.RFC3339Nano), now, zone)
		if err != nil || !again.Equal(at) {
			t.Fatalf("%q is %v, then %v, %v", text, at, again, err)
		}
		wall, ok := shown(text)
		if ok && !strings.Contains(at.Format(time.DateTime), wall) {
			t.Fatalf("%q is %v", text, at)
		}
	})
}

// shown is what of a text a clock must show, where it is a date and time or a time of day.
func shown(text string) (string, bool) {
	for _, layout := range []string{time.DateTime, "2006-01-02 15:04", time.TimeOnly, "15:04"} {
		if t, err := time.Parse(layout, text); err == nil {
			return t.Format(layout), true
		}
	}
	return "", false
}

// TestJobsAmiss holds a job, with each of its numbers slipped in turn, to what
// FuzzJob does: a fuzzer that knows nothing of numbers seldom gets there.
func TestJobsAmiss(t *testing.T) {
	record, err := resins.Load("epoxy-ipda")
	if err != nil {
		t.Fatal(err)
	}
	tried, read := 0, 0
	text, err := os.ReadFile(strut)
	if err != nil {
		t.Fatal(err)
	}
	for amiss := range documenttest.Amiss(string(text)) {
		jobHolds(t, record, []byte(amiss))
		tried++
		if _, err := schedule.ReadJobIn("job.yaml", []byte(amiss), schedule.Place{Local: time.UTC}); err == nil {
			read++
		}
	}
	t.Logf("%d of %d slips are read", read, tried)
	if tried < 300 || read < tried/20 || read > tried/2 {
		t.Errorf("%d of %d slips are read: the slips test nothing", read, tried)
	}
}
