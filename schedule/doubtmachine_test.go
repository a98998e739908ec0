package schedule_test

import (
	"slices"
	"strings"
	"testing"
)

// TestDoubtMachine: a tow at a speed in the wrong unit and bands that their tows do not
// make are doubted with their figures, and those at the edge are not. A tow of 800 tex of
// 1800 kg/m³ has 0.444 mm² of fibre; 62 % by mass are 49.5 to 51.0 % by volume for cured or
// liquid resin of 1100 to 1170 kg/m³, so a ply has 0.871 to 0.898 mm² for each tow.
func TestDoubtMachine(t *testing.T) {
	const machine = "tows: 1, band: 4 mm, tow_speed: 15 m/min"
	for _, c := range []struct {
		machine string
		words   []string // none: no doubt
	}{
		{machine, nil},
		{"tows: 1, band: 4 mm, tow_speed: 119 m/min", nil},
		{"tows: 1, band: 4 mm, tow_speed: 18 m/s", []string{"machine.tow_speed is 1080 m/min", "120 m/min"}},
		{"tows: 1, band: 5.9 mm, tow_speed: 15 m/min", nil},
		{"tows: 1, band: 7 mm, tow_speed: 15 m/min", []string{"a band of 7 mm from 1 tow of 800 tex", "7 mm for each tow", "wider than 6 mm"}},
		{"tows: 3, band: 12 mm, tow_speed: 15 m/min", nil},
		{"tows: 1, band: 40 mm, tow_speed: 15 m/min", []string{"40 mm from 1 tow of 800 tex lies 0.022", "62 % by mass"}},
		{"tows: 8, band: 4 mm, tow_speed: 15 m/min", nil},
		{"tows: 16, band: 4 mm, tow_speed: 15 m/min", []string{"4 mm from 16 tows of 800 tex lies 3.5", "check band, tows, tex"}},
	} {
		got := slices.DeleteFunc(said(prepare(t, soundJob(t, machine, c.machine)).Warnings), func(text string) bool {
			return !strings.Contains(text, "band of") && !strings.Contains(text, "tow_speed")
		})
		if (len(c.words) > 0) != (len(got) == 1) {
			t.Errorf("%s: %q, want a doubt with %q", c.machine, got, c.words)
			continue
		}
		for _, words := range c.words {
			if !strings.Contains(got[0], words) {
				t.Errorf("%s: %q, want %q", c.machine, got[0], words)
			}
		}
	}
	// A heavy glass roving lies as wide as it is heavy.
	heavy := said(prepare(t, soundJob(t, "fibre: carbon-12k", "fibre: e-glass-2400", "band: 4 mm", "band: 11 mm", "62 %", "72 %")).Warnings)
	if slices.ContainsFunc(heavy, func(text string) bool { return strings.Contains(text, "band of") }) {
		t.Errorf("2400 tex in 11 mm: %q", heavy)
	}
}

// TestAssumed: what a job leaves out is told with what is taken instead, and nothing is
// told of one that says it all.
func TestAssumed(t *testing.T) {
	const (
		ends   = "ends: {fibre: 4 m, per: layer}\n"
		limits = "limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}\n"
	)
	for _, c := range []struct{ ends, limits, says string }{
		{ends, limits, ""},
		{"ends: {fibre: 0 m}\n", limits, ""},
		{"", limits, "leaves out ends; taken: no fibre beside the cylinder"},
		{ends, "", "leaves out limits; taken: 1500 mPa·s in the bath, 3000 mPa·s as laid, 40 °C, a reserve of 10 min"},
		{"", "limits: {bath_viscosity: 900 mPa·s, bath_temperature: 38 °C}\n", "leaves out ends, limits.laid_viscosity, limits.reserve; taken: no fibre beside the cylinder, 3000 mPa·s as laid, a reserve of 10 min"},
	} {
		got := prepare(t, soundJob(t, ends, c.ends, limits, c.limits)).Assumed()
		if (c.says == "") != (len(got) == 0) || c.says != "" && !strings.HasSuffix(got[0], c.says) {
			t.Errorf("%q %q: %q, want %q", c.ends, c.limits, got, c.says)
		}
	}
}
