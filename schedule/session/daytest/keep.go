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
	for _, e := range d.Events[1:] {
		if _, err := s.Log(e); err != nil {
			t.Fatal(err)
		}
	}
	return s.Folder
}
