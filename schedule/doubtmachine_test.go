package schedule_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
)

// TestDoubtMachine: a tow at a speed in the wrong unit and bands that their tows do not
// make are doubted with their figures, and those at the edge are not. A tow of 800 tex of
// 1800 kg/m³ has 0.444 mm² of fibre; 62 % by mass are 49.5 to 51.0 % by volume for cured or
// liquid resin of 1100 to 1170 kg/m³, so a ply has 0.871 to 0.898 mm² for each tow.
func TestDoubtMachine(t *testing.T) {
	const machine = "tows: 1, band: 4 mm, tow_speed: 15 m/min"
	const tex = quantity.LinearDensity(800e-6)
	for _, c := range []struct {
		machine string
		want    warning.Warning // nil: no doubt
	}{
		{machine, nil},
		{"tows: 1, band: 4 mm, tow_speed: 119 m/min", nil},
		{"tows: 1, band: 4 mm, tow_speed: 18 m/s", schedule.TowTooFast{Speed: 18, Fastest: 2}},
		{"tows: 1, band: 5.9 mm, tow_speed: 15 m/min", nil},
		{"tows: 1, band: 7 mm, tow_speed: 15 m/min", schedule.BandTooWide{Band: schedule.TowBand{Width: 0.007, Tows: 1, Tex: tex}, Each: 0.007, Widest: 0.006}},
		{"tows: 3, band: 12 mm, tow_speed: 15 m/min", nil},
		{"tows: 1, band: 40 mm, tow_speed: 15 m/min", schedule.PlyDoubtful{Band: schedule.TowBand{Width: 0.04, Tows: 1, Tex: tex}, Thickness: 0.885e-6 / 0.04}},
		{"tows: 8, band: 4 mm, tow_speed: 15 m/min", nil},
		{"tows: 16, band: 4 mm, tow_speed: 15 m/min", schedule.PlyDoubtful{Band: schedule.TowBand{Width: 0.004, Tows: 16, Tex: tex}, Thickness: 16 * 0.885e-6 / 0.004}},
	} {
		got := ofMachine(prepare(t, soundJob(t, machine, c.machine)).Warnings)
		if (c.want != nil) != (len(got) == 1) {
			t.Errorf("%s: %+v, want %+v", c.machine, got, c.want)
			continue
		}
		if want, ply := c.want.(schedule.PlyDoubtful); ply {
			found, same := got[0].(schedule.PlyDoubtful)
			// The bracket of the fraction by volume is 1.5 % to each side.
			if off := float64(found.Thickness/want.Thickness) - 1; !same || !(math.Abs(off) <= 0.016) || found.Fraction.Basis != resins.ByMass || !near(found.Fraction.Value, 0.62) {
				t.Errorf("%s: %+v, want %+v", c.machine, got[0], want)
			}
			want.Thickness, want.Fraction = found.Thickness, found.Fraction
			c.want = want
		}
		if c.want != nil && !cmp.Equal(got[0], c.want, alike(1e-9)) {
			t.Errorf("%s: %+v, want %+v", c.machine, got[0], c.want)
		}
	}
	// A heavy glass roving lies as wide as it is heavy.
	heavy := prepare(t, soundJob(t, "fibre: carbon-12k", "fibre: e-glass-2400", "band: 4 mm", "band: 11 mm", "62 %", "72 %")).Warnings
	if got := ofMachine(heavy); len(got) > 0 {
		t.Errorf("2400 tex in 11 mm: %+v", got)
	}
}

// ofMachine are the warnings about a machine and its band.
func ofMachine(list []warning.Warning) []warning.Warning {
	return slices.DeleteFunc(slices.Clone(list), func(w warning.Warning) bool {
		switch w.(type) {
		case schedule.TowTooFast, schedule.PlyDoubtful, schedule.BandTooWide:
			return false
		}
		return true
	})
}

// TestAssumed: what a job leaves out is told with what is taken instead, and nothing is
// told of one that says it all.
func TestAssumed(t *testing.T) {
	const (
		ends   = "ends: {fibre: 4 m, per: layer}\n"
		limits = "limits: {bath_viscosity: 1500 mPa·s, laid_viscosity: 3000 mPa·s, bath_temperature: 40 °C, reserve: 10 min}\n"
	)
	all := schedule.LeftOut{Limits: true, BathViscosity: 1.5, LaidViscosity: 3, BathTemperature: quantity.Celsius(40), Reserve: 600}
	for _, c := range []struct {
		ends, limits string
		want         schedule.LeftOut
	}{
		{ends, limits, schedule.LeftOut{}},
		{"ends: {fibre: 0 m}\n", limits, schedule.LeftOut{}},
		{"", limits, schedule.LeftOut{Ends: true}},
		{ends, "", all},
		{"", "limits: {bath_viscosity: 900 mPa·s, bath_temperature: 38 °C}\n", schedule.LeftOut{Ends: true, LaidViscosity: 3, Reserve: 600}},
	} {
		got := prepare(t, soundJob(t, ends, c.ends, limits, c.limits)).Assumed()
		if nothing := c.want == (schedule.LeftOut{}); nothing != (len(got) == 0) || !nothing && got[0] != warning.Warning(c.want) {
			t.Errorf("%q %q: %+v, want %+v", c.ends, c.limits, got, c.want)
		}
	}
}
