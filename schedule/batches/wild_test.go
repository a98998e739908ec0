package batches_test

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"testing"

	"potlife/kinetics/testrun"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/batches/wild"
)

// wildJobs is how many wild jobs a test plans, and the number of the first. POTLIFE_JOB=N
// plans that one alone.
func wildJobs(t *testing.T, sample, all int) (first, count uint64) {
	t.Helper()
	number := func(name string) uint64 {
		text := os.Getenv(name)
		if text == "" {
			return 0
		}
		n, err := strconv.ParseUint(text, 10, 32)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return n
	}
	if os.Getenv("POTLIFE_JOB") != "" {
		return number("POTLIFE_JOB"), 1
	}
	return 0, uint64(testrun.Draws(sample, all))
}

// prepareWild reads and prepares a wild job; nil where it is refused, which it is
// only with a place in its file.
func prepareWild(t *testing.T, number uint64) *schedule.Winding {
	t.Helper()
	made := wild.New(number)
	job, err := schedule.ReadJob("wild.yaml", []byte(made.Text))
	if err != nil {
		refusedWell(t, number, err)
		return nil
	}
	record, err := resins.Load(job.ResinPath())
	if err != nil {
		t.Fatal(err)
	}
	var lessons *schedule.Learned
	if made.Lessons != "" {
		if lessons, err = schedule.ReadLearned("wild.learned.yaml", []byte(made.Lessons)); err != nil {
			t.Fatalf("job %d: %v\n%s", number, err, made.Lessons)
		}
	}
	w, err := schedule.PrepareWith(job, record, lessons)
	if err != nil {
		refusedWell(t, number, err)
		return nil
	}
	return w
}

func refusedWell(t *testing.T, number uint64, err error) {
	t.Helper()
	var faults *document.Faults
	if !errors.As(err, &faults) {
		t.Errorf("job %d is refused without a place: %v", number, err)
		return
	}
	for _, f := range faults.List {
		if f.Line == 0 || f.Problem == "" || f.Mend == "" {
			t.Errorf("job %d is refused so: %v", number, f)
		}
	}
}

// TestWildJobs plans jobs that use everything a job file can say. Whatever is called
// feasible is confirmed by the referee and kept by its ensemble, its masses add up
// and its times ascend; whatever is not has a reason; and where the whole family of
// plans can be walked, nothing in it is better.
func TestWildJobs(t *testing.T) {
	first, count := wildJobs(t, 60, 400)
	var tally batches.WildTally
	refused := 0
	for n := first; n < first+count; n++ {
		w := prepareWild(t, n)
		if w == nil {
			refused++
			continue
		}
		s, err := w.Solve()
		if err != nil {
			t.Errorf("job %d: %v", n, err)
			continue
		}
		if err := batches.CheckSolution(w.Task, s); err != nil {
			t.Errorf("job %d: %v", n, err)
		}
		if s.Feasible() && len(w.Contradictions) > 0 {
			t.Errorf("job %d has a plan and is said to contradict itself: %+v", n, w.Contradictions)
		}
		batches.CheckFamily(t, fmt.Sprintf("job %d", n), w.Task, &tally)
		tally.Count(s)
		if done := n - first + 1; done%250 == 0 && done < count {
			t.Logf("after %d jobs, %d refused; %s", done, refused, tally.String())
		}
	}
	t.Logf("%d jobs, %d refused; %s", count, refused, tally.String())
	if count >= 80 && (tally.Feasible < int(count)/6 || tally.Infeasible < int(count)/10 || tally.Equal < int(count)/8 || tally.TopUps < int(count)/20 || tally.Changes < int(count)/40) {
		t.Error("too few of one kind: the wild jobs test nothing")
	}
}
