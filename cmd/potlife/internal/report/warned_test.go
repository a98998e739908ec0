package report

import (
	"regexp"
	"slices"
	"testing"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
)

// allWarnings are one of each kind, of every package that finds any.
var allWarnings = [][]warning.Warning{session.Warnings, replay.Warnings, advice.Warnings, scales.DayWarnings}

// TestEveryWarningIsSaid: each kind has a sentence, and a code that no other kind has.
func TestEveryWarningIsSaid(t *testing.T) {
	form := regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)+$`)
	seen := map[string]warning.Warning{}
	for _, w := range slices.Concat(allWarnings...) {
		if sentence(w) == "" || !form.MatchString(w.Code()) {
			t.Errorf("%T, %q: %q", w, w.Code(), sentence(w))
		}
		if other, found := seen[w.Code()]; found {
			t.Errorf("%T and %T are both %s", other, w, w.Code())
		}
		seen[w.Code()] = w
	}
}
