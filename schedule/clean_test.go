package schedule_test

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/session/daytest"
)

// TestCleanIsATimeOrNone: what limits.clean may be, and that each refusal names both forms or the
// range.
func TestCleanIsATimeOrNone(t *testing.T) {
	for text, want := range map[string]vessel.Clean{
		"{}": 0, "{clean: none}": vessel.Uncleaned, "{clean: 3 h}": vessel.Clean(3 * quantity.Time(3600)), "{clean: 90 min}": vessel.Clean(5400),
	} {
		l, _, err := schedule.ReadLimits("--limits", text)
		if err != nil || l.Clean != want {
			t.Errorf("%s: %v, %v", text, l.Clean, err)
		}
	}
	for text, want := range map[string]string{
		"{clean: never}": "3 h, or none", "{clean: 3}": "unit", "{clean: 10 s}": "below 60 s", "{clean: 30 d}": "above", "{clean: -2 h}": "below", "{clean: [3 h]}": "a time or none",
	} {
		if _, _, err := schedule.ReadLimits("--limits", text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v; want %q", text, err, want)
		}
	}
}

// TestCleanCountsFromThePour: the minutes in which a pot is mixed are none of the bath's.
func TestCleanCountsFromThePour(t *testing.T) {
	w := daytest.Prepared(t, "mixing: 5 min", "mixing: 10 min", "limits: {", "limits: {clean: 16 min, ")
	if len(w.Contradictions) > 0 {
		t.Errorf("%+v", w.Contradictions)
	}
	w = daytest.Prepared(t, "limits: {", "limits: {clean: 9 min, ")
	if len(w.Contradictions) != 1 || w.Contradictions[0].Code() != (schedule.FreshBathTooShort{}).Code() {
		t.Errorf("a bath that is changed within its reserve of 10 min: %+v", w.Contradictions)
	}
}
