package document_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

type layer struct {
	Hoop    bool
	Helical quantity.Angle
	Time    quantity.Time
	Timed   bool
}

type job struct {
	Name   string
	Room   quantity.Temperature
	Length quantity.Length
	Tows   int
	Pickup float64
	Helper bool
	Refill string
	At     string
	Bath   struct{ Lowest, Highest quantity.Mass }
	Jacket bool
	Steps  []quantity.Time
	Layers []layer
}

func (l *layer) field() document.Field {
	return document.Union("", []document.Field{
		document.Custom("", "hoop", func(n document.Node) {
			if text, ok := n.Scalar(); ok && text != "hoop" {
				n.Fault(text+" is no layer", "write hoop")
			}
			l.Hoop = true
		}, document.Example("hoop")),
		document.Mapping("", []document.Field{
			document.Quantity("helical", &l.Helical, document.Required(), document.Between(quantity.Angle(0), quantity.Angle(1.5))),
			document.Quantity("time", &l.Time, document.Seen(&l.Timed), document.Positive()),
		}),
	})
}

func (j *job) fields() []document.Field {
	return []document.Field{
		document.Text("name", &j.Name, document.Required(), document.Example("Telescope strut")),
		document.Quantity("room", &j.Room),
		document.Quantity("length", &j.Length, document.Positive(), document.AtMost(quantity.Length(12))),
		document.Integer("tows", &j.Tows, document.Between(1, 64)),
		document.Number("pick_up", &j.Pickup, document.NotNegative()),
		document.Bool("helper", &j.Helper),
		document.Choice("refill", &j.Refill, []string{"layers", "circuits"}),
		document.Text("at", &j.At),
		document.Mapping("bath", []document.Field{
			document.Quantity("lowest", &j.Bath.Lowest, document.Required()),
			document.Quantity("highest", &j.Bath.Highest),
		}, document.Seen(&j.Jacket)),
		document.List("steps", &j.Steps, func(t *quantity.Time) document.Field { return document.Quantity("", t) }),
		document.List("layers", &j.Layers, (*layer).field),
	}
}

const whole = `# a job
name: "Strut: 1"
room: 22 °C   # warm
length: 250 mm
tows: 2
pick_up: 1.0
helper: true
refill: layers
at: 09:00
bath: {lowest: 120 g, highest: 0.7 kg}
steps: [45 min, 1 h]
layers:
  - hoop
  - {helical: 25 deg}
  - helical: 45 deg
    time: 24 min
`

// TestRead checks that the same document is read in every dress an editor may give it.
func TestRead(t *testing.T) {
	want := job{
		Name: "Strut: 1", Room: quantity.Celsius(22), Length: 0.25, Tows: 2, Pickup: 1, Helper: true, Refill: "layers",
		At: "09:00", Jacket: true, Steps: []quantity.Time{2700, 3600},
		Layers: []layer{
			{Hoop: true},
			{Helical: parse[quantity.Angle](t, "25 deg")},
			{Helical: parse[quantity.Angle](t, "45 deg"), Time: 1440, Timed: true},
		},
	}
	want.Bath.Lowest, want.Bath.Highest = parse[quantity.Mass](t, "120 g"), 0.7
	for name, source := range map[string]string{
		"plain":           whole,
		"carriage return": strings.ReplaceAll(whole, "\n", "\r\n"),
		"byte order mark": "\ufeff" + whole,
		"header":          "---\n" + whole,
		"no last newline": strings.TrimSuffix(whole, "\n"),
		"tabs":            strings.ReplaceAll(whole, "room: 22 °C   #", "room:\t22 °C\t#"),
	} {
		var got job
		if _, err := document.Read("job.yaml", []byte(source), got.fields()); err != nil {
			t.Errorf("%s: %v", name, err)
		} else if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: want -, got +\n%s", name, diff)
		}
	}
}

func parse[Q quantity.Quantity](t *testing.T, text string) Q {
	t.Helper()
	q, err := quantity.Parse[Q](text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestScalarsArriveAsWritten checks texts that YAML would take for something else.
func TestScalarsArriveAsWritten(t *testing.T) {
	for written, want := range map[string]string{
		"010": "010", "1e3": "1e3", "yes": "yes", "09:00": "09:00", "2026-11-28 09:00": "2026-11-28 09:00", "1_000": "1_000",
		"0x1F": "0x1F", "0o17": "0o17", "+.inf": "+.inf", ".NaN": ".NaN", "True": "True", "1.50": "1.50", "-0": "-0",
		"99999999999999999999999": "99999999999999999999999", "'it''s'": "it's", `"a\tb"`: "a\tb", "'5 mm'": "5 mm", "'null'": "null",
		"62 % by mass": "62 % by mass", "10 W/(m²·K)": "10 W/(m²·K)", "./strut.yaml": "./strut.yaml", "|\n  one\n  two": "one\ntwo",
		"long\n  text": "long text", "-40 °C": "-40 °C", "a#b": "a#b", "1:30:00": "1:30:00", "0b11": "0b11", "='x": "='x",
	} {
		var got string
		if _, err := document.Read("x.yaml", []byte("text: "+written+"\n"), []document.Field{document.Text("text", &got)}); err != nil || strings.TrimSuffix(got, "\n") != want {
			t.Errorf("%q arrives as %q (%v), want %q", written, got, err, want)
		}
	}
}

// TestFlag reads a mapping of one line, and checks that messages name the flag.
func TestFlag(t *testing.T) {
	var cup quantity.Length
	fields := []document.Field{document.Quantity("cup", &cup)}
	if _, err := document.Read("--vessel", []byte("{cup: 90 mm}"), fields); err != nil || cup != 0.09 {
		t.Errorf("cup %v, %v", cup, err)
	}
	_, err := document.Read("--vessel", []byte("{cup: 90}"), fields)
	const want = `--vessel:1:7: 90 has no unit, here a length is wanted
    1 | {cup: 90}
      |       ^
   write it like this: 90 mm`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// TestCrossFieldFaults checks that the caller's own faults take their place in the order.
func TestCrossFieldFaults(t *testing.T) {
	var j job
	source := strings.Replace(whole, "tows: 2", "tows: two", 1)
	doc, err := document.Read("job.yaml", []byte(source), j.fields())
	if err == nil {
		t.Fatal("no fault")
	}
	for path, sound := range map[string]bool{"tows": false, "bath": true, "bath.lowest": true, "layers[2].time": true, "layers[1].time": false, "": false} {
		if doc.Sound(path) != sound {
			t.Errorf("Sound(%q) = %v", path, !sound)
		}
	}
	if !doc.Has("tows") || doc.Has("bath.middle") {
		t.Error("Has confuses what is written")
	}
	doc.FaultAt("layers[2].time", "too short", "write 1 h")
	doc.FaultAt("bath.lowest", "more than highest", "write less")
	doc.FaultAt("bath.middle", "not there", "add it")
	if doc.Sound("bath") {
		t.Error("the bath is sound in spite of bath.lowest")
	}
	var faults *document.Faults
	if !errors.As(doc.Err(), &faults) {
		t.Fatalf("error %v", doc.Err())
	}
	var got [][2]int
	for _, f := range faults.List {
		got = append(got, [2]int{f.Line, f.Column})
	}
	if diff := cmp.Diff([][2]int{{5, 7}, {10, 7}, {10, 16}, {16, 11}}, got); diff != "" {
		t.Errorf("positions: want -, got +\n%s", diff)
	}
	if !strings.HasSuffix(faults.Error(), "\n4 faults") {
		t.Errorf("no count in\n%v", faults)
	}
}

// TestFieldsDescribeThemselves checks what a schema is made from.
func TestFieldsDescribeThemselves(t *testing.T) {
	fields := new(job).fields()
	length, layers := fields[2], fields[10]
	if length.Measures != "a length" || length.Units[0] != "mm" || !length.Low.Exclusive || length.High.Text != "12 m" {
		t.Errorf("length: %+v", length)
	}
	if item := layers.Item(); item.Kind != document.KindUnion || item.Forms[1].Fields[0].Name != "helical" || !item.Forms[1].Fields[0].Required {
		t.Errorf("layers: %+v", item)
	}
	if got := layers.Example(); got != "[hoop]" {
		t.Errorf("example %q", got)
	}
}
