package main

import (
	"fmt"
	"reflect"
	"strconv"
	"testing"

	"potlife/schedule/session"
)

// TestWeightsAsWritten: what a scale shows is kept to the digit, in whatever unit it was
// written, and each flag fills a field of its own.
func TestWeightsAsWritten(t *testing.T) {
	read := weights[0].read
	for i := 1; i < 100_000; i += 7 {
		shown := fmt.Sprintf("%d.%d", i/10, i%10)
		want, err := strconv.ParseFloat(shown, 64)
		if err != nil {
			t.Fatal(err)
		}
		var w session.Weights
		if err := read(shown+" g", &w); err != nil || *w.PartG != want {
			t.Fatalf("%s g is kept as %v, %v", shown, *w.PartG, err)
		}
	}
	seen := map[session.Weights]string{}
	for _, flag := range weights {
		cmd := newWeigh()
		for _, text := range []string{"3", "3 g", "3 m", "3 tex", "3 g/cm³", "3 mL", "3 g/m²", "3 °C"} {
			if err := cmd.Flags().Set(flag.flag, text); err != nil {
				t.Fatal(err)
			}
			given, err := readWeights(cmd)
			if err != nil {
				continue
			}
			shape := presence(given)
			if other, found := seen[shape]; found || given.Empty() {
				t.Errorf("--%s fills what --%s does", flag.flag, other)
			}
			seen[shape] = flag.flag
			break
		}
	}
	if len(seen) != len(weights) {
		t.Errorf("%d flags read something, of %d", len(seen), len(weights))
	}
}

// presence has the same pointer in every field that is given.
func presence(w session.Weights) session.Weights {
	fields := reflect.ValueOf(&w).Elem()
	for i := range fields.NumField() {
		field := fields.Field(i)
		switch {
		case field.IsNil():
		case field.Type() == reflect.TypeFor[*int]():
			field.Set(reflect.ValueOf(&anInt))
		default:
			field.Set(reflect.ValueOf(&aFloat))
		}
	}
	return w
}

var (
	anInt  int
	aFloat float64
)
