package advice

import (
	"slices"
	"testing"

	"potlife/kinetics/warning"
	"potlife/resins"
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
