package daytest

import (
	"path/filepath"
	"testing"

	"potlife/schedule/session"
)

// Keep writes the day as a session and returns its folder.
func (d *Day) Keep(t testing.TB) string {
	t.Helper()
	job, start := *d.W.Job, d.Events[0].At
	job.File = filepath.Join(t.TempDir(), "day.yaml")
	copies := session.CopiesOf(d.W)
	copies.Plan = d.Events[0].Plan
	s, _, err := session.Start(&job, copies, start, start)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	logged := start
	for _, e := range d.Events[1:] {
		// What happened before the last event was told late: the clock goes on.
		if e.Logged = logged; e.At.After(logged) {
			e.Logged, logged = e.At, e.At
		}
		if _, err := s.Log(e); err != nil {
			t.Fatal(err)
		}
	}
	return s.Folder
}
