package session

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/warning"
	"potlife/resins/fit"
	"potlife/schedule"
)

// TestLabelWarningsOfAJournal: what calibrating warned of is read again as it was, from the
// line that a start writes and from lines of other versions: the sentences of before the
// codes, a code that is not known, and values that are another's.
func TestLabelWarningsOfAJournal(t *testing.T) {
	far := fit.FarPotLife{Said: 1800, Never: true, Factor: 3.5, Claims: 1.6}
	for line, want := range map[string][]warning.Warning{
		`{"kind":"start","label":["the label names no container: a cup","the label gives no viscosity"]}`: {
			AsRecorded{Sentence: "the label names no container: a cup"}, AsRecorded{Sentence: "the label gives no viscosity"},
		},
		`{"kind":"start","label_warnings":[{"code":"label-far-pot-life","values":{"said_s":1800,"alone_s":0,"never":true,"factor":3.5,"claims":1.6}},{"code":"label-without-pot-life","values":{}}]}`: {
			far, fit.LabelWithoutPotLife{},
		},
		`{"kind":"start","label_warnings":[{"code":"label-upside-down","values":{"by":2}},{"code":"label-far-pot-life","values":"much"}]}`: {
			AsRecorded{Kept: "label-upside-down", Values: `{"by":2}`}, AsRecorded{Kept: "label-far-pot-life", Values: `"much"`},
		},
		`{"kind":"start"}`: nil,
	} {
		var e Event
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, e.OfLabel()); diff != "" {
			t.Errorf("%s, - wanted, + read\n%s", line, diff)
		}
	}
}

// TestNoSentenceIsKept: a start writes the warnings of its label as codes and values alone,
// under label_warnings, and reads them as they were.
func TestNoSentenceIsKept(t *testing.T) {
	given := []warning.Warning{
		fit.FarViscosity{Said: 0.9, Alone: 0.6, At: 298.15, Factor: 1.5, Claims: 1.3},
		fit.LabelWithoutContainer{Cup: 0.0486, Mass: 0.1, Spread: 1.35, Known: 1.2},
		fit.LabelWithoutPotLife{},
	}
	first := startOf(&schedule.Job{Name: "Strut", Zone: time.UTC}, Copies{Resolved: true, Label: given}, nine, nine)
	line, err := json.Marshal(first)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(line), `"label":`) || strings.Count(string(line), `"code":"label-`) != len(given) {
		t.Errorf("%s", line)
	}
	var again Event
	if err := json.Unmarshal(line, &again); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(given, again.OfLabel()); diff != "" {
		t.Errorf("- given, + read\n%s", diff)
	}
}
