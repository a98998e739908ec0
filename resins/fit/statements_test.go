package fit_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit"
)

const whole = `name: club-epoxy-medium
like: epoxy-ipda
parts: {resin: {by_mass: 100, density: 1.13 g/cm³}, hardener: {by_mass: 27, density: 0.95 g/cm³}}
statements:
  - pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {cup: 60 mm}, end: gel}
  - pot_life: {time: 30 min, mass: 100 g, at: 27 °C, end: 40 °C}
  - viscosity: {value: 650 mPa·s, at: 25 °C}
  - film_gel: {time: 5 h, at: 23 °C}
  - conversion: {is: 0.5, after: {time: 5 h, at: 25 °C}}
  - glass: {is: 52 °C, after: {time: 7 d, at: 23 °C}}
  - heat: 440 J/g
  - cup_log: {file: ./saturday.csv, mass: 200 g, in: {cup: 80 mm}, room: 22 °C}
`

// TestStatementsFile reads the file of the package's kinds, each with its five
// figures, and the log beside it.
func TestStatementsFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "club.yaml")
	write := func(path, text string) {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(path, whole)
	write(filepath.Join(folder, "saturday.csv"), "time_min;temperature_C\n0;22,5\n5;23\n10;24,5\n20;30\n")
	s, err := fit.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	kinds := []fit.Kind{fit.PotLife, fit.PotLife, fit.Viscosity, fit.FilmGel, fit.Conversion, fit.Glass, fit.Heat, fit.CupLog}
	if s.Name != "club-epoxy-medium" || s.Like != "epoxy-ipda" || s.Mix == nil || s.Mix.HardenerByMass() != 27 || len(s.List) != len(kinds) {
		t.Fatalf("%+v", s)
	}
	for i, kind := range kinds {
		if s.List[i].Kind != kind || s.List[i].String() == "" {
			t.Errorf("statement %d is %s: %v", i+1, s.List[i].Kind, &s.List[i])
		}
	}
	p := s.List[0]
	if p.Time != 2700 || p.Mass != 0.1 || p.At != quantity.Celsius(23) || p.In.Cup != 0.06 || !p.End.Gel || p.Assumed {
		t.Errorf("%+v", p)
	}
	if !s.List[1].Assumed || s.List[1].End.Temperature != quantity.Celsius(40) {
		t.Errorf("%+v", s.List[1])
	}
	if v := s.List[2]; !(math.Abs(float64(v.Value)-0.65) <= 1e-12) || v.At != quantity.Celsius(25) {
		t.Errorf("%+v", v)
	}
	if c := s.List[4]; c.Is != 0.5 || c.Time != 18000 || c.At != quantity.Celsius(25) {
		t.Errorf("%+v", c)
	}
	if l := s.List[7]; l.Log == nil || len(l.Log.At) != 4 || l.Room != quantity.Celsius(22) {
		t.Errorf("%+v", l)
	}
	if !slices.Equal(s.Warnings, []warning.Warning{fit.ContainerAssumed{Number: 2, Statement: s.List[1]}}) {
		t.Errorf("warnings %+v", s.Warnings)
	}
}

// TestStatementFaults: every fault shows its line and column and the mend; all
// of a file are told at once.
func TestStatementFaults(t *testing.T) {
	const head = "name: x\nlike: epoxy-ipda\nstatements:\n"
	for _, c := range []struct {
		name, text    string
		line, column  int
		problem, mend string
	}{
		{"mass not said", head + "  - pot_life: {time: 45 min, at: 23 °C, in: {cup: 60 mm}, end: gel}\n", 4, 15, "mass is missing", "mass: 100 g"},
		{"time not said", head + "  - pot_life: {mass: 100 g, at: 23 °C, in: {cup: 60 mm}, end: gel}\n", 4, 15, "time is missing", "time: 45 min"},
		{"temperature not said", head + "  - pot_life: {time: 45 min, mass: 100 g, in: {cup: 60 mm}, end: gel}\n", 4, 15, "at is missing", "at: 23 °C"},
		{"end not said", head + "  - pot_life: {time: 45 min, mass: 100 g, at: 23 °C, in: {cup: 60 mm}}\n", 4, 15, "end is missing", "end: gel"},
		{"kind misspelt", head + "  - pot_live: {time: 45 min}\n", 4, 5, "unknown key pot_live", "write pot_life"},
		{"key misspelt", head + "  - film_gel: {tine: 5 h, at: 23 °C}\n", 4, 16, "unknown key tine", "write time"},
		{"bare number", head + "  - film_gel: {time: 5, at: 23 °C}\n", 4, 22, "unit", "5"},
		{"two in one", head + "  - film_gel: {time: 5 h, at: 23 °C}\n    viscosity: {value: 650 mPa·s, at: 25 °C}\n", 4, 5, "several statements", "dash"},
		{"end below the start", head + "  - pot_life: {time: 45 min, mass: 100 g, at: 23 °C, end: 20 °C}\n", 4, 59, "starts above", "40 °C"},
		{"conversion beyond all", head + "  - conversion: {is: 50, after: {time: 5 h, at: 25 °C}}\n", 4, 22, "above 0.99", "0.01"},
		{"cup without size", head + "  - cup_log: {file: x.csv, mass: 200 g, in: {}, room: 22 °C}\n", 4, 45, "no size", "cup: 90 mm"},
		{"unknown flow cup", head + "  - cup_log: {file: x.csv, mass: 200 g, in: {cup: 80 mm}, room: 22 °C, flow_cup: iso4}\n", 4, 82, "iso4 is not", "iso-4"},
		{"no statements", "name: x\nlike: epoxy-ipda\nstatements: []\n", 3, 13, "no statements", "viscosity"},
		{"ratio in two ways", "name: x\nlike: epoxy-ipda\nparts: {resin: {by_mass: 100, density: 1.1 g/cm³}, hardener: {by_volume: 30, density: 1 g/cm³}}\nstatements: [heat: 430 J/g]\n", 3, 8, "by volume", "both"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := fit.Read("club.yaml", []byte(c.text))
			var faults *document.Faults
			if !errors.As(err, &faults) {
				t.Fatalf("%+v, %v", got, err)
			}
			f := faults.List[0]
			if len(faults.List) != 1 || f.Line != c.line || f.Column != c.column || !strings.Contains(f.Problem, c.problem) || !strings.Contains(f.Mend, c.mend) {
				t.Errorf("%v", err)
			}
		})
	}
	_, err := fit.Read("club.yaml", []byte(head+"  - heat: 430\n  - viscosity: {value: 650 mPa·s}\n"))
	var faults *document.Faults
	if !errors.As(err, &faults) || len(faults.List) != 2 {
		t.Errorf("two faults: %v", err)
	}
}

// TestMixByVolume: 100 to 32 by volume of 1.15 and 0.97 g/cm³ are 100 to 27 by
// mass (derived).
func TestMixByVolume(t *testing.T) {
	s, err := fit.Read("x", []byte("name: x\nlike: epoxy-ipda\nparts: {resin: {by_volume: 100, density: 1.15 g/cm³}, hardener: {by_volume: 32, density: 0.97 g/cm³}}\nstatements: [heat: 430 J/g]\n"))
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Mix.HardenerByMass(); !(math.Abs(got-100*0.32*0.97/1.15) <= 1e-9) {
		t.Errorf("100 to %g", got)
	}
}

// TestMissingLogs: a log that is not there is told by its name; flow times need
// their cup.
func TestMissingLogs(t *testing.T) {
	s, err := fit.Read("club.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	err = s.ReadLogs(func(name string) ([]byte, error) { return resins.ReadFile(filepath.Join(t.TempDir(), name), "cup log") })
	var unreadable *resins.Unreadable
	if !errors.As(err, &unreadable) || !strings.Contains(err.Error(), "saturday.csv") {
		t.Errorf("%v", err)
	}
	err = s.ReadLogs(func(string) ([]byte, error) {
		return []byte("time_min;temp_C;flow_s\n0;22;40\n5;23;45\n9;24;50\n20;30;60\n"), nil
	})
	var faults *fit.LogFaults
	if !errors.As(err, &faults) || !strings.Contains(faults.List[0].Mend, "flow_cup: iso-4") || faults.List[0].Line != 1 {
		t.Errorf("%v", err)
	}
}
