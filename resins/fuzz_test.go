package resins_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/catalogue"
	"potlife/resins/document/documenttest"
)

// seeds adds the files that a pattern names.
func seeds(f *testing.F, pattern string) {
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

// FuzzRecord: whatever the file, the answer is faults that lie in it, or a record that is
// finite, cures at a rate that is no less than zero, thickens, is followed to its end in a
// cup, and is written as a file that gives the same record again.
func FuzzRecord(f *testing.F) {
	for _, name := range catalogue.Systems() {
		source, _ := catalogue.System(name)
		f.Add(source)
	}
	seeds(f, "../testdata/resins/bad/*.yaml")
	f.Add([]byte(record("law: two-stage, A1: 3.5e7 1/s, E1: 80.7 kJ/mol, A2: -3.3e7 1/s, E2: 77.8 kJ/mol, A3: 3266 1/s, E3: 56.6 kJ/mol, B: 0.47, switch: 0.3", "law: castro-macosko, a: 1.5, b: 1.0")))
	f.Add([]byte(record("law: nth-order, A: 1.9e5 1/s, E: 60.5 kJ/mol, n: 1.69", "law: dual-arrhenius, growth: 2e6 1/s, growth_activation: 55 kJ/mol")))
	f.Add([]byte(record("law: nth-order, A: 0 1/s, E: 60.5 kJ/mol, n: 0.01", "law: castro-macosko, a: 0, b: -50")))
	for _, change := range extremes {
		f.Add([]byte(strings.Replace(sound, change[0], change[1], 1)))
	}
	if _, err := resins.Read("resin.yaml", []byte(sound)); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(recordHolds)
}

// recordHolds is what FuzzRecord and TestRecordsAmiss hold a file to.
func recordHolds(t *testing.T, source []byte) {
	t.Helper()
	r, err := resins.Read("resin.yaml", source)
	if err != nil {
		documenttest.Faults(t, string(source), err)
		return
	}
	documenttest.Finite(t, r)
	behaves(t, r)
	again, err := resins.Read("again.yaml", r.File())
	if err != nil {
		t.Fatalf("written as\n%s\nit is refused: %v", r.File(), err)
	}
	if third := again.File(); !bytes.Equal(third, r.File()) {
		t.Fatalf("written\n%s\nand again\n%s", r.File(), third)
	}
}

// behaves holds a record to what every simulation takes for granted, where its own file
// says that it may be trusted.
func behaves(t *testing.T, r *resins.Record) {
	t.Helper()
	k := &r.Kinetics
	for _, at := range []quantity.Temperature{r.Valid.From, (r.Valid.From + r.Valid.To) / 2, r.Valid.To} {
		kelvin := float64(at)
		for alpha := 0.0; alpha <= 1; alpha += 1.0 / 16 {
			if rate := k.CureRate(alpha, kelvin); !(rate >= 0) || math.IsInf(rate, 0) {
				t.Fatalf("cures by %g 1/s at %v and α = %g", rate, at, alpha)
			}
			if thick := k.LogViscosity(alpha, alpha, kelvin); math.IsNaN(thick) || math.IsInf(thick, 0) {
				t.Fatalf("ln η is %g at %v and α = %g", thick, at, alpha)
			}
			if glass := k.Glass.At(alpha); !(glass >= k.Glass.Uncured*(1-1e-12) && glass <= k.Glass.Cured*(1+1e-12)) { // rounding
				t.Fatalf("glass temperature %v at α = %g", glass, alpha)
			}
		}
	}
	if h := r.Mix.HardenerByMass(); !(h > 0) || math.IsInf(h, 0) || !(r.Mix.Density() > 0) {
		t.Fatalf("%g parts of hardener, density %v", h, r.Mix.Density())
	}
	room := vessel.Constant((r.Valid.From + r.Valid.To) / 2)
	bath := vessel.New(*k, vessel.UsualCup(0.1, k.Density), room, room, vessel.Working)
	m, err := bath.Milestones(vessel.State{Mass: 0.1, Temperature: room.At(0)}, 0, 86400)
	if err != nil || !(m.Gel > 0) || !(m.Peak > 0) {
		t.Fatalf("in a cup: %+v, %v", m, err)
	}
}

// sound is a record that is read, extremes what may be written instead of some of its text.
var (
	sound = record("law: kamal-sourour, A1: 9.065e4 1/s, E1: 56 kJ/mol, A2: 9.065e5 1/s, E2: 56 kJ/mol, m: 1, n: 2", "law: castro-macosko, a: 1.5, b: 1.0")

	extremes = [][2]string{
		{"9.065e4", "1e299"},
		{"9.065e4", "1e-299"},
		{"9.065e5", "0"},
		{"m: 1", "m: 0.001"},
		{"n: 2", "n: 0.001"},
		{"by_mass: 100", "by_mass: 1e299"},
		{"by_mass: 27", "by_mass: 1e-299"},
		{"from: 15 °C", "from: 0 K"},
		{"to: 80 °C", "to: 1e299 K"},
		{"to: 80 °C", "to: 15.0000001 °C"},
		{"at: 25 °C", "at: 0 K"},
		{"at: 25 °C", "at: 1e-299 K"},
		{"a0: -1.684", "a0: 1e299"},
		{"5.475e-3", "-1e299"},
		{"lambda: 0.4", "lambda: 1e-299"},
		{"b: 1.0", "b: -50"},
		{"uncured: -35 °C", "uncured: 60 °C"},
		{"name: x", "name: \"\\x01\""},
		{"name: x", "name: \"\\u2028 \\\\ é\"\ndescription: |\n  a\n  b"},
		{"E1: 56 kJ/mol", "E1: 250 kJ/mol"},
		{"E2: 56 kJ/mol", "E2: 20 kJ/mol"},
		{"heat: 430 J/g", "heat: 1500 J/g"},
		{"gel: 0.577", "gel: 0.95"},
	}
)

// record is a file with the laws given.
func record(cure, viscosity string) string {
	return "name: x\nparts:\n  resin: {by_mass: 100, density: 1.13 g/cm³}\n  hardener: {by_mass: 27, density: 0.95 g/cm³}\n" +
		"cure: {" + cure + ", heat: 430 J/g, gel: 0.577, valid: {from: 15 °C, to: 80 °C}}\n" +
		"glass: {uncured: -35 °C, cured: 120 °C, lambda: 0.4}\n" +
		"viscosity: {at: 25 °C, value: 600 mPa·s, activation: 65 kJ/mol, " + viscosity + "}\n" +
		"thermal: {density: 1.11 g/cm³, heat_capacity: 2.2 J/(g·K), conductivity: 0.2 W/(m·K)}\n" +
		"vitrification: {a0: -1.684, aT_per_K: 5.475e-3, sharpness: 43.09}\n" +
		"evidence:\n  parts: {kind: typical, note: x}\n  cure: {kind: typical, note: x}\n  vitrification: {kind: typical, note: x}\n" +
		"  glass: {kind: typical, note: x}\n  viscosity: {kind: typical, note: x}\n  thermal: {kind: typical, note: x}\n"
}

// FuzzTexts: fibre fractions, end-points and flow cups of the command line. What is read
// is written so that it is read again as the same, and lies within its bounds.
func FuzzTexts(f *testing.F) {
	for _, text := range []string{
		"62 % by mass", "50 % by volume", "62%  by  mass", "by mass", "99.9999999999999999 % by mass", "gel", "doubled", "40 °C", "1500 mPa·s", "0 K", "-5 Pa·s",
		"iso-6 62 s", "ISO-4 1 min", "zahn-2 20 s", "iso-3 1e-9 s", "iso-4 1e300 s", "zahn-9 9 s",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if fraction, err := resins.ParseFibreFraction(text); err != nil {
			refused(t, text, err)
		} else {
			again, err := resins.ParseFibreFraction(fraction.String())
			if err != nil || again.Basis != fraction.Basis || !(fraction.Value > 0 && fraction.Value < 1) || !(math.Abs(float64(again.Value/fraction.Value-1)) <= 1e-12) { // rounding
				t.Fatalf("%q is %v, then %v, %v", text, fraction, again, err)
			}
		}
		if end, err := resins.ParseEndPoint(text); err != nil {
			refused(t, text, err)
		} else if end == (vessel.EndPoint{}) || end.Temperature < 0 || end.Viscosity < 0 {
			t.Fatalf("%q ends at %+v", text, end)
		} else {
			documenttest.Finite(t, end)
		}
		word, rest, _ := bytes.Cut([]byte(text), []byte(" "))
		cup, err := resins.FlowCupNamed(string(word))
		if err != nil {
			refused(t, text, err)
			return
		}
		took, err := quantity.Parse[quantity.Time](string(rest))
		if err != nil {
			return // FuzzParse of package quantity
		}
		v, err := cup.Viscosity(took, 1100)
		if err != nil {
			refused(t, text, err)
		} else if !(v > 0 && v < 10) { // the thickest of any cup is some 2 Pa·s
			t.Fatalf("%q is %v", text, v)
		}
	})
}

func refused(t *testing.T, text string, err error) {
	t.Helper()
	var e *quantity.Error
	if !errors.As(err, &e) || e.Problem == "" || e.Mend == "" {
		t.Fatalf("%q: %v is no refusal with a mend", text, err)
	}
}

// TestRecordsAmiss holds a record of each law, with each of its numbers slipped in turn, to
// what FuzzRecord does: a fuzzer that knows nothing of numbers seldom gets there.
func TestRecordsAmiss(t *testing.T) {
	texts := []string{
		sound,
		record("law: two-stage, A1: 3.5e7 1/s, E1: 80.7 kJ/mol, A2: -3.3e7 1/s, E2: 77.8 kJ/mol, A3: 3266 1/s, E3: 56.6 kJ/mol, B: 0.47, switch: 0.3", "law: castro-macosko, a: 1.5, b: 1.0"),
		record("law: nth-order, A: 1.9e5 1/s, E: 60.5 kJ/mol, n: 1.69", "law: dual-arrhenius, growth: 2e6 1/s, growth_activation: 55 kJ/mol"),
	}
	tried, read := 0, 0
	for _, text := range texts {
		for amiss := range documenttest.Amiss(text) {
			recordHolds(t, []byte(amiss))
			tried++
			if _, err := resins.Read("resin.yaml", []byte(amiss)); err == nil {
				read++
			}
		}
	}
	t.Logf("%d of %d slips are read", read, tried)
	if tried < 500 || read < tried/20 || read > tried/2 {
		t.Errorf("%d of %d slips are read: the slips test nothing", read, tried)
	}
}
