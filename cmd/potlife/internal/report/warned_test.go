package report

import (
	"slices"
	"strings"
	"testing"

	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/fit"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/cure"
	"potlife/schedule/learning"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// everyWarning has one of each kind that the program finds.
func everyWarning() []warning.Warning {
	return slices.Concat(
		resins.Warnings,
		fit.Warnings,
		weighing.Warnings,
		scales.Warnings,
		learning.Warnings,
		cure.Warnings,
		session.Warnings,
		replay.Warnings,
		advice.Warnings,
		inforce.Warnings,
		schedule.Warnings,
		batches.Warnings,
		unwritten,
		[]warning.Warning{CureNotDrawn{Path: "cure.svg"}},
	)
}

// TestEveryWarningIsSaid: each kind has a sentence with all its values, and a code of its own.
func TestEveryWarningIsSaid(t *testing.T) {
	codes := map[string]warning.Warning{}
	for _, w := range everyWarning() {
		code := w.Code()
		if other, found := codes[code]; found {
			t.Errorf("%T and %T are both %s", w, other, code)
		}
		codes[code] = w
		if code == "" || strings.Trim(code, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
			t.Errorf("%T has the code %q", w, code)
		}
		if text := sentence(w); text == "" || strings.Contains(text, "%!") || strings.HasSuffix(text, ".") {
			t.Errorf("%T: %q", w, text)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a warning without a sentence has one")
		}
	}()
	_ = sentence(unsaid{})
}

type unsaid struct{}

func (unsaid) Code() string { return "unsaid" }
