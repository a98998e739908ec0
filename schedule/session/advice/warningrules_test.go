package advice

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// TestFindWarnings: what may spoil the part while it is wound is urgent and comes first; of what
// only stands in a cup, was forgotten or misread, or is wound already, nothing is.
func TestFindWarnings(t *testing.T) {
	w := prepared(t)
	takes := float64(w.Laid[0].Time / minute)
	for _, c := range []struct {
		name   string
		at     float64
		day    func(d day)
		codes  []string
		urgent int
	}{
		{"a day like any", 20, func(d day) { d.Fill(0, 415.9); d.Begin(6, 1) }, nil, 0},
		{"off its ratio in the bath and in a cup", 20, func(d day) {
			d.Poured(5, d.MixedParts(0, 330, 90))
			d.MixedParts(6, 330, 90)
			d.Begin(6, 1)
		}, []string{"bath-off-ratio", "layers-off-ratio", "cup-off-ratio"}, 1},
		{"changed since", 20, func(d day) {
			d.Poured(5, d.MixedParts(0, 330, 90))
			d.Changed(6)
			d.Fill(7, 415.9)
		}, nil, 0},
		{"all but empty", 41, func(d day) { d.Fill(0, 240); d.Layer(1, 6, 40); d.Begin(40.5, 2) }, nil, 0},
		{"dry, and not yet poured into", 70, func(d day) { d.Fill(0, 240); d.Layer(1, 6, 40); d.Begin(43, 2) }, []string{"bath-ran-dry"}, 1},
		{"dry, and poured into since", 70, func(d day) {
			d.Fill(0, 240)
			d.Layer(1, 6, 40)
			d.Begin(43, 2)
			d.Fill(64, 300)
		}, []string{"bath-ran-dry"}, 0},
		{"a done that was forgotten", 8 + 2*takes, func(d day) { d.Fill(0, 600); d.Begin(6, 1) }, []string{"layer-overdue"}, 0},
		{"misread", 20, func(d day) { d.Fill(0, 415.9); d.Temperature(15, 90) }, []string{"reading-unexplained", "reading-past-limit"}, 0},
		{"misread again and again", 20, func(d day) {
			d.Fill(0, 415.9)
			for i := range 5 {
				d.Temperature(15+float64(i)/10, 5+7*float64(i%2))
			}
		}, []string{"reading-unexplained", "reading-unexplained", "reading-unexplained", "more-readings-unexplained"}, 0},
	} {
		d := newDay(w)
		c.day(d)
		found, urgent := FindWarnings(d.play(t, c.at, 0))
		if got := warning.Codes(found); !slices.Equal(got, c.codes) || urgent != c.urgent {
			t.Errorf("%s: %q, of which %d are urgent; want %q and %d", c.name, got, urgent, c.codes, c.urgent)
		}
	}
}

// TestBathWarnings: a bath that holds too much says so until it is drawn down or emptied; a pot off
// its ratio is diluted by what is poured onto it, and the layers that were wound of it stay.
func TestBathWarnings(t *testing.T) {
	w := prepared(t)
	ratio := w.Record.Mix.RatioError
	off, slightly := ratio(resins.Pot{Resin: 0.1, Hardener: 0.03}), ratio(resins.Pot{Resin: 0.1, Hardener: 0.0255})
	resin, hardener := w.Record.Mix.Split(0.26)
	mean := ratio(resins.Pot{Resin: 0.1 + resin, Hardener: 0.03 + hardener})
	thirds := func(d day) { // a third is off, and the whole beyond the tolerance
		d.Poured(5, d.MixedParts(0, 100, 30))
		d.Fill(1, 260)
	}
	highest := w.Task.Bath.Highest
	fill := func(d day, minutes float64, m quantity.Mass) { // so much gets into the bath
		d.Fill(minutes, m.In("g")/(1-float64(w.Task.Pots.LeftInCup)))
	}
	over := func(m quantity.Mass) []warning.Warning {
		return []warning.Warning{BathOverfull{Mass: m, Highest: highest}}
	}
	for _, c := range []struct {
		name string
		at   float64
		day  func(d day)
		want []warning.Warning
	}{
		{"as much as scales differ by", 7, func(d day) { fill(d, 0, 1.0499*highest) }, nil},
		{"more", 7, func(d day) { fill(d, 0, 1.0501*highest) }, over(1.0501 * highest)},
		{"poured onto", 9, func(d day) { fill(d, 0, 0.6); fill(d, 2, 0.5) }, over(1.1)},
		{"drawn down", 36, func(d day) { fill(d, 0, 1.0501*highest); d.Begin(6, 1) }, nil},
		{"emptied", 9, func(d day) { fill(d, 0, 1.1); d.Removed(7, session.ThrownOut, 0) }, nil},
		{"off its ratio, and nothing wound of it", 8, thirds, []warning.Warning{BathOffRatio{Pot: 1, Off: off}}},
		{"diluted", 13, func(d day) {
			d.Poured(5, d.MixedParts(0, 100, 25.5))
			d.Fill(1, 600)
		}, []warning.Warning{BathDiluted{Pot: 1, Off: slightly}}},
		{"wound of it, and changed", 70, func(d day) {
			thirds(d)
			d.Layer(1, 7, 40)
			d.Changed(45)
			d.Fill(45, 400)
		}, []warning.Warning{LayersOffRatio{Layers: []int{1}, Off: mean}}},
		{"wound of it, and the pot undone", 41, func(d day) {
			thirds(d)
			d.Layer(1, 7, 40)
			d.Undo(40, 3) // the pour
			d.Undo(40, 2)
		}, nil},
	} {
		d := newDay(w)
		c.day(d)
		found, _ := FindWarnings(d.play(t, c.at, 0))
		found = slices.DeleteFunc(found, func(w warning.Warning) bool {
			return !slices.Contains([]string{"bath-overfull", "bath-off-ratio", "bath-diluted", "layers-off-ratio"}, w.Code())
		})
		// Sums of masses, to what floating point makes of them.
		if diff := cmp.Diff(c.want, found, cmpopts.EquateApprox(1e-9, 0), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s: - wanted, + found\n%s", c.name, diff)
		}
	}
}

// TestNothingUrgentOnceWound: with the last layer wound no warning stands beside the order.
func TestNothingUrgentOnceWound(t *testing.T) {
	w := daytest.Prepared(t)
	d := newDay(w)
	pot := d.MixedParts(0, 450, 130)
	d.Poured(5, pot)
	for i := range w.Laid {
		d.Layer(i+1, 6+40*float64(i), 36+40*float64(i))
	}
	a := d.ask(t, d.Last()+1, 0)
	off := w.Record.Mix.RatioError(resins.Pot{Resin: 0.45, Hardener: 0.13})
	if i := slices.Index(a.Warnings, warning.Warning(BathOffRatio{Pot: 1, Off: off, Wound: true})); i != 0 || a.Urgent != 0 {
		t.Errorf("%+v, of which %d are urgent", a.Warnings, a.Urgent)
	}
}
