package report

import (
	"errors"
	"strings"
	"syscall"
	"testing"

	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
)

// TestSayNotAsked: what kept the plan from being written is not said of the event, which is safe.
func TestSayNotAsked(t *testing.T) {
	failed := &session.Failed{Doing: "sync", Path: "journal.jsonl", Err: syscall.EIO, Unsure: true}
	want := "e7 is logged; whether the plan still holds could not be checked: cannot sync journal.jsonl: " + syscall.EIO.Error()
	if got := sentence(inforce.CannotAsk(7, failed)); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// What a file is to be mended by is not about the event, and stays.
	const faults = "job.yaml:3: there is nothing to wind\n   add a layer"
	if got := sentence(inforce.CannotAsk(1, errors.New(faults))); !strings.HasSuffix(got, faults) {
		t.Errorf("%q does not end with %q", got, faults)
	}
}

// TestSayPotsWithoutPlace: pots that a new plan has no place for are named before all else.
func TestSayPotsWithoutPlace(t *testing.T) {
	for want, pots := range map[string][]int{
		"; pot 3 is not in it: potlife check says what to do with it":              {3},
		"; pot 3 and pot 4 are not in it: potlife check says what to do with them": {3, 4},
	} {
		l := &Logged{Plan: &session.Event{Kind: session.Planned, Plan: &session.Plan{Why: session.LimitBroken}}, unused: pots}
		if got := l.renewal(); !strings.HasSuffix(got, want) {
			t.Errorf("%q does not end with %q", got, want)
		}
	}
}
