package document_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// A tank has keys that had other names, one of them two, and one that is no longer read.
type tank struct {
	Name            string
	Depth           quantity.Length
	Lowest, Highest quantity.Mass
}

func (k *tank) fields() []document.Field {
	return []document.Field{
		document.Text("name", &k.Name, document.Required(), document.Was("title"), document.Example("Strut")),
		document.Quantity("depth", &k.Depth, document.Was("deep", "height"), document.Positive()),
		document.Mapping("bath", []document.Field{
			document.Quantity("lowest", &k.Lowest, document.Required(), document.Was("least")),
			document.Quantity("highest", &k.Highest, document.Was("most")),
			document.Retired("alarm", "write lowest, at which the alarm goes now"),
		}, document.Was("tray")),
	}
}

// TestRenamed reads files of before: the values go where those of today go, and each old key is
// told with its line as it should be.
func TestRenamed(t *testing.T) {
	today := tank{Name: "x", Depth: 0.005, Lowest: 0.1, Highest: 0.2}
	long := strings.Repeat("x", 60)
	rows := []struct {
		name, source string
		want         []string
	}{
		{"today", "name: x\ndepth: 5 mm\nbath: {lowest: 100 g, highest: 200 g}", nil},
		{"one", "title: x\ndepth: 5 mm\nbath: {lowest: 100 g, highest: 200 g}", []string{"1 title name: name: x"}},
		{"the second name before", "name: x\nheight: 5 mm # high\nbath: {lowest: 100 g, highest: 200 g}", []string{"2 height depth: depth: 5 mm # high"}},
		{"in braces", "name: x\ndepth: 5 mm\nbath: {least: 100 g, highest: 200 g}", []string{"3 least lowest: bath: {lowest: 100 g, highest: 200 g}"}},
		{"several of a line", "name: x\ndepth: 5 mm\ntray: {least: 100 g, most: 200 g}", []string{
			"3 tray bath: bath: {least: 100 g, most: 200 g}", "3 least lowest: tray: {lowest: 100 g, most: 200 g}", "3 most highest: tray: {least: 100 g, highest: 200 g}",
		}},
		{"a block", "name: x\ndepth: 5 mm\ntray:\n  least: 100 g\n  highest: 200 g\n", []string{"3 tray bath: bath:", "4 least lowest: lowest: 100 g"}},
		{"in quotes", "\"title\": x\r\n'deep': 5 mm\r\nbath: {lowest: 100 g, highest: 200 g}\r\n", []string{`1 title name: "name": x`, "2 deep depth: 'depth': 5 mm"}},
		{"the value is like the key", "title: x # title\ndepth: 5 mm\nbath: {lowest: 100 g, highest: 200 g}", []string{"1 title name: name: x # title"}},
		{
			"a long line", "name: x\nbath: {lowest: 100 g, highest: 200 g}\ndepth: 5 mm # " + long + long + "\n",
			nil,
		},
		{
			"a long line with an old key", "name: x\nbath: {lowest: 100 g, highest: 200 g}\ndeep: 5 mm # " + long + long + "\n",
			[]string{"3 deep depth: depth: 5 mm # " + long[:56] + "…"},
		},
	}
	for _, row := range rows {
		var got tank
		doc, err := document.Read("tank.yaml", []byte(row.source), got.fields())
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if diff := cmp.Diff(today, got); diff != "" {
			t.Errorf("%s: want -, got +\n%s", row.name, diff)
		}
		if !doc.Has("name") || !doc.Sound("bath.lowest") || doc.Has("title") || doc.Has("tray") || doc.Has("tray.least") || doc.Has("bath.least") {
			t.Errorf("%s: rules do not find the values under the names of today", row.name)
		}
		var said []string
		for _, w := range doc.Renamed() {
			r := w.(document.Renamed)
			said = append(said, fmt.Sprintf("%d %s %s: %s", r.Line, r.Was, r.Name, r.Corrected))
		}
		if diff := cmp.Diff(row.want, said); diff != "" {
			t.Errorf("%s: want -, said +\n%s", row.name, diff)
		}
	}
}

// TestRenamedLine: the line that a warning gives is read without one.
func TestRenamedLine(t *testing.T) {
	doc, err := document.Read("tank.yaml", []byte("name: x\n  \nbath: {least: 100 g}\n"), new(tank).fields())
	if err != nil || len(doc.Renamed()) != 1 {
		t.Fatalf("%v, %v", doc.Renamed(), err)
	}
	doc, err = document.Read("tank.yaml", []byte("name: x\n"+doc.Renamed()[0].(document.Renamed).Corrected), new(tank).fields())
	if err != nil || len(doc.Renamed()) > 0 {
		t.Errorf("the corrected line: %v, %v", doc.Renamed(), err)
	}
}

// TestRenamedFaults: what cannot be read under an old name either, and what needs a decision.
func TestRenamedFaults(t *testing.T) {
	const both = "name: x\n"
	for _, row := range []struct{ name, source, want string }{
		{"old before new", "title: y\n" + both, "1:1 title is the old name of name, which is written as well | delete title and its value"},
		{"new before old", both + "title: y", "2:1 title is the old name of name, which is written as well | delete title and its value"},
		{"two old ones", both + "deep: 5 mm\nheight: 6 mm", "3:1 height is the old name of depth, which is written as well | delete height and its value"},
		{"below", both + "bath: {lowest: 1 g, least: 2 g}", "2:21 least is the old name of lowest, which is written as well | delete least and its value"},
		{"old mapping beside the new one", both + "tray: {least: 1 g}\nbath: {lowest: 1 g}", "2:1 tray is the old name of bath, which is written as well | delete tray and its value"},
		{"value of an old key", both + "deep: 5 kg", "2:7 5 kg is a mass, here a length is wanted | write it like this: 5 mm"},
		{"nothing under an old key", both + "deep:", "2:1 nothing is written here, but a length is wanted | write it like this: depth: 250 mm"},
		{"missing below an old key", both + "tray: {most: 5 g}", "2:7 the key lowest is missing in bath | write it like this: lowest: 250 g"},
		{"misspelt", both + "dept: 5 mm", "2:1 unknown key dept | write depth"},
		{"an old key elsewhere", both + "least: 5 g", "2:1 unknown key least | known keys here: name, depth, bath"},
		{"retired", both + "bath: {lowest: 1 g, alarm: 5 g}", "2:21 alarm is no longer read | write lowest, at which the alarm goes now"},
		{"retired and anything below", both + "bath:\n  lowest: 1 g\n  alarm:\n    - x\n", "4:3 alarm is no longer read | write lowest, at which the alarm goes now"},
		{"known keys", both + "bath: {lowest: 1 g, colour: red}", "2:21 unknown key colour in bath | known keys here: lowest, highest"},
	} {
		_, err := document.Read("tank.yaml", []byte(row.source), new(tank).fields())
		var faults *document.Faults
		if !errors.As(err, &faults) || len(faults.List) != 1 {
			t.Errorf("%s: error %v, want one fault", row.name, err)
			continue
		}
		f := faults.List[0]
		if got := fmt.Sprintf("%d:%d %s | %s", f.Line, f.Column, f.Problem, f.Mend); got != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.name, got, row.want)
		}
	}
}
