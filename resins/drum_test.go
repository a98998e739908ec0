package resins_test

import (
	"errors"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/document"
)

// readDrum reads the keys of a vessel beside its size.
func readDrum(text string) (resins.Container, *document.Document) {
	c := resins.Container{Drum: resins.Drum{Turns: resins.WithTow}}
	doc, _ := document.Read("vessel.yaml", []byte("length: 300 mm\nwidth: 120 mm\n"+text+"\n"), c.Fields())
	c.Check(doc, "")
	return c, doc
}

// TestDrum reads what stirs a bath, as it is written today and as it was.
func TestDrum(t *testing.T) {
	const small, large quantity.Length = 0.15, 0.3
	for _, c := range []struct {
		text, line string // line: as it should be written
		want       resins.Drum
	}{
		{"", "", resins.Drum{Turns: resins.WithTow}},
		{"drum: none", "", resins.Drum{}},
		{"drum: {turns: always}", "", resins.Turning},
		{"drum: {turns: with-tow, length: 300 mm}", "", resins.Drum{Length: large, Turns: resins.WithTow}},
		{"drum: {length: 15 cm}", "", resins.Drum{Length: small, Turns: resins.WithTow}},
		{"stirred: true", "drum: {turns: always}", resins.Turning},
		{"stirred: false # yet", "drum: none # yet", resins.Drum{}},
		{`"stirred" : true`, "drum: {turns: always}", resins.Turning},
	} {
		got, doc := readDrum(c.text)
		if err := doc.Err(); err != nil || got.Drum != c.want {
			t.Errorf("%s: %+v, %v", c.text, got.Drum, err)
		}
		var lines []string
		for _, w := range doc.Renamed() {
			r := w.(document.Renamed)
			if lines = append(lines, r.Corrected); r.Was != "stirred" || r.Name != "drum" || r.Line != 3 {
				t.Errorf("%s: said of it %+v", c.text, r)
			}
		}
		if strings.Join(lines, "|") != c.line {
			t.Errorf("%s: to be written as %q, want %q", c.text, lines, c.line)
			continue
		}
		if again, doc := readDrum(c.line); c.line != "" && (again.Drum != c.want || len(doc.Renamed()) > 0) {
			t.Errorf("%s: %s is read as %+v", c.text, c.line, again.Drum)
		}
	}
}

// TestDrumRefused: what cannot be meant is refused at its place.
func TestDrumRefused(t *testing.T) {
	for text, want := range map[string]string{
		"drum: none\nstirred: true":            "4:1",
		"drum: {length: 400 mm}":               "3:16",
		"drum: {length: 0 mm}":                 "3:16",
		"drum: {turns: sometimes}":             "3:15",
		"drum: half":                           "3:7",
		"stirred: yes":                         "3:10",
		"drum: {turns: none}":                  "3:15",
		"drum: {width: 20 mm}":                 "3:8",
		"stirred: true\ndrum: {turns: always}": "3:1",
	} {
		_, doc := readDrum(text)
		var faults *document.Faults
		if !errors.As(doc.Err(), &faults) || !strings.HasPrefix(faults.Error(), "vessel.yaml:"+want) {
			t.Errorf("%s: %v, want it at %s", text, doc.Err(), want)
		}
	}
}

// TestStirs: all of a bath is stirred where the drum comes to within a depth of its ends.
func TestStirs(t *testing.T) {
	const density quantity.Density = 1100
	bath := resins.Container{Length: 0.3, Width: 0.12}
	deep := quantity.Mass(0.3 * 0.12 * 0.02 * float64(density)) // 20 mm
	for _, c := range []struct {
		drum resins.Drum
		want vessel.Drum
	}{
		{resins.Drum{}, vessel.NoDrum},
		{resins.Turning, vessel.DrumAlways},
		{resins.Drum{Turns: resins.WithTow}, vessel.DrumWithTow},
		{resins.Drum{Length: 0.261, Turns: resins.Always}, vessel.DrumAlways},
		{resins.Drum{Length: 0.259, Turns: resins.Always}, vessel.NoDrum},
		{resins.Drum{Length: 0.259, Turns: resins.WithTow}, vessel.NoDrum},
	} {
		bath.Drum = c.drum
		if got := bath.Stirs(deep, density); got != c.want {
			t.Errorf("%+v: %v, want %v", c.drum, got, c.want)
		}
	}
}
