package batches_test

import (
	"path/filepath"
	"testing"

	"potlife/schedule"
	"potlife/schedule/batches"
)

// TestRestOfTheDemos: the demo jobs, planned again after each of their layers.
func TestRestOfTheDemos(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		job, err := schedule.LoadJob(filepath.Join("..", "..", "testdata", "jobs", name))
		if err != nil {
			t.Fatal(err)
		}
		w, err := schedule.Prepare(job)
		if err != nil {
			t.Fatal(err)
		}
		s, err := batches.Solve(w.Task)
		if err != nil || !s.Feasible() {
			t.Fatal(name, s, err)
		}
		for k := 1; k < len(w.Task.Units); k++ {
			same := batches.CheckRest(t, w.Task, s.Plan, k)
			t.Logf("%s after %d units: as before %v, %d cups", name, k, same, len(batches.RestOf(w.Task, s.Plan, k).Begin.Cups))
		}
	}
}
