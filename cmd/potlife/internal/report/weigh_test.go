package report

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/scales"
)

func g(x float64) *float64 { return &x }
func n(x int) *int         { return &x }

// reportOf is the report of a sheet with a target of 62 % by mass, and its text.
func reportOf(t *testing.T, w session.Weights, logged session.Event) (*Weigh, string) {
	t.Helper()
	s := scales.Sheet{Weights: w, Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}}
	answer, err := s.Weigh()
	if err != nil {
		t.Fatal(err)
	}
	folder := ""
	if logged.Seq > 0 {
		folder = "tube.session"
	}
	r := NewWeigh(answer, folder, logged, []warning.Warning{session.LineCut{Bytes: 12, Event: 7}}, "")
	var text bytes.Buffer
	if err := r.Text(&text); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(text.String()) {
		if utf8.RuneCountInString(strings.TrimRight(line, "\n")) > Width {
			t.Errorf("wider than %d: %s", Width, line)
		}
	}
	return r, text.String()
}

// everything is a tube of 800 g of fibre in 1290 g that was weighed by all ways, with
// spools that say 60 g more.
func everything() session.Weights {
	return session.Weights{
		PartG: g(4445), MandrelG: g(3200), TrimmingsG: g(45), FibreG: g(800), TowM: g(250), Tex: g(800), Tows: n(4),
		SpoolBeforeG: g(2400), SpoolAfterG: g(1540), MixedG: g(640), LeftOverG: g(55), CupsG: g(20), RagsG: g(20), DripsG: g(10),
		FibreDensityKgM3: g(1800), ResinDensityKgM3: g(1200), VolumeML: g(830), ThicknessMm: g(2.35), ArealWeightGM2: g(266.7), Plies: n(8),
		AirG: g(5.012), WaterG: g(1.66), WaterC: g(21), CouponG: g(2.034), ResidueG: g(1.261), ScaleG: g(1), BalanceG: g(0.001),
	}
}

// TestWeighJSON: with every input every name has a value and no list is null; with the
// least of them lists are empty and what is not known is null.
func TestWeighJSON(t *testing.T) {
	full, _ := reportOf(t, everything(), session.Event{Seq: 7})
	least, _ := reportOf(t, session.Weights{CouponG: g(2.034), ResidueG: g(1.261), BalanceG: g(0.001)}, session.Event{})
	kind := reflect.TypeFor[Weigh]()
	for i := range kind.NumField() {
		field := kind.Field(i)
		if !field.IsExported() {
			continue
		}
		if value := reflect.ValueOf(*full).Field(i); value.IsZero() {
			t.Errorf("%s has no value with every input", field.Name)
		}
		if value := reflect.ValueOf(*least).Field(i); field.Type.Kind() == reflect.Slice && value.IsNil() {
			t.Errorf("%s is null", field.Name)
		}
	}
	var raw bytes.Buffer
	if err := WriteJSON(&raw, least); err != nil {
		t.Fatal(err)
	}
	var back map[string]any
	if err := json.Unmarshal(raw.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"fibre_g", "resin_g", "void_fraction", "unaccounted_g", "session", "logged", "fibre_volume_fraction"} {
		if value, found := back[name]; !found || value != nil {
			t.Errorf("%s is %v; a coupon alone does not tell it", name, value)
		}
	}
}

// TestWeighText: every part of the answer stands in the text once; doubts that are told
// as disagreements are not told again.
func TestWeighText(t *testing.T) {
	r, text := reportOf(t, everything(), session.Event{Seq: 7})
	for _, part := range []string{
		"fibre by mass", "fibre by volume", "voids", "density", "pick-up", "Where the resin went", "and its trimmings", "in rags",
		"dripped", "Ways to the fibre", "What does not fit together", "Doubts", "12 bytes", "logged e7", "Take care",
	} {
		if !strings.Contains(text, part) {
			t.Errorf("%q is missing in\n%s", part, text)
		}
	}
	misfit := r.said(true)
	if len(r.Disagreements) == 0 || len(misfit) != len(r.Disagreements)+1 || misfit[0] != r.Disagreements[0].Text {
		t.Fatalf("60 g more on the spools: %q", misfit)
	}
	flat := strings.Join(strings.Fields(text), " ")
	for _, once := range misfit {
		if n := strings.Count(flat, once); n != 1 {
			t.Errorf("told %d times: %s", n, once)
		}
	}
	if strings.Count(text, "\n") > 80 {
		t.Errorf("%d lines", strings.Count(text, "\n"))
	}
}

// TestEstimatedDigits: a value has the digits of its doubt, two at most of the latter.
func TestEstimatedDigits(t *testing.T) {
	for _, row := range []struct {
		x      float64
		digits int
		want   string
	}{{12.34, 0, "12"}, {-0.04, 1, "0.0"}, {-0.06, 1, "-0.1"}, {1, 2, "1.00"}} {
		if got := signed(row.x, row.digits); got != row.want {
			t.Errorf("%v to %d digits: %s, want %s", row.x, row.digits, got, row.want)
		}
	}
}
