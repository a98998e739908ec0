package report

import (
	"syscall"
	"testing"

	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
)

// TestSayNotAsked: what kept the plan from being written is not said of the event, which is safe.
func TestSayNotAsked(t *testing.T) {
	failed := &session.Failed{Doing: "sync", Path: "journal.jsonl", Err: syscall.EIO, Unsure: true}
	want := "e7 is logged; whether the plan still holds could not be checked: cannot sync journal.jsonl: " + syscall.EIO.Error()
	if got := sentence(inforce.NotAsked{Event: 7, Problem: failed.Error()}); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
