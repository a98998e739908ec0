package schedule_test

import (
	"path/filepath"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

func demo(t *testing.T, name string) *schedule.Winding {
	t.Helper()
	job, err := schedule.LoadJob(filepath.Join("..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func solved(t *testing.T, task *batches.Task) *batches.Solution {
	t.Helper()
	s, err := batches.Solve(task)
	if err != nil {
		t.Fatal(err)
	}
	if !s.Feasible() {
		t.Fatalf("no plan: %+v", s.Breach)
	}
	return s
}

// TestStrutRefillsForWorkingLife: the demo strut takes three to six pots, and a
// bath that never aged would not need the stops that the plan makes: all its
// resin fits into the bath at once.
func TestStrutRefillsForWorkingLife(t *testing.T) {
	w := demo(t, "telescope-strut.yaml")
	s := solved(t, w.Task)
	if n := s.Plan.Score.Pots; n < 3 || n > 6 {
		t.Errorf("%d pots, want three to six", n)
	}
	if len(s.Plan.Pours) < 2 {
		t.Error("no refill")
	}
	// The same winding in one go, without a stop for resin.
	var whole batches.Unit
	for i, u := range w.Task.Units {
		whole.Time += u.Time
		whole.Resin += u.Resin
		whole.FibreWeight += u.FibreWeight
		if i > 0 {
			whole.Time += w.Task.Pause
		}
	}
	whole.EndsLayer = true
	once := *w.Task
	once.Units = []batches.Unit{whole}
	if got, err := batches.Solve(&once); err != nil || got.Feasible() || got.Breach.Why == batches.ByHighest {
		t.Errorf("in one go: %+v, %v; want it to break a limit or the reserve", got.Breach, err)
	}
	ageless := once
	ageless.Resin = ageless.Resin.Adjusted(1e-6, 1)
	if got := solved(t, &ageless); got.Plan.Score.Pots >= s.Plan.Score.Pots {
		t.Errorf("without ageing, %d pots at once; the plan has %d", got.Plan.Score.Pots, s.Plan.Score.Pots)
	}
}

// TestShellNeedsNoChange: a glass winding of four tows while the room warms is
// wound from one bath; the plan itself is the proof.
func TestShellNeedsNoChange(t *testing.T) {
	w := demo(t, "softener-shell.yaml")
	s := solved(t, w.Task)
	if s.Plan.Score.Changes != 0 {
		t.Errorf("%d changes", s.Plan.Score.Changes)
	}
	if w.Job.Machine.Tows != 4 || w.Job.Bath.Highest < quantity.Mass(1) {
		t.Error("not the shell with four tows and a large bath")
	}
	end := s.Plan.End[len(s.Plan.End)-1]
	if warmer := w.Task.Room.At(end) - w.Task.Room.At(0); !(warmer > 1) {
		t.Errorf("the room warms by %v only", warmer)
	}
}

// TestVariantsDoWhatTheySay: each variant differs from the job in what it names.
func TestVariantsDoWhatTheySay(t *testing.T) {
	w := demo(t, "softener-shell.yaml")
	seen := map[batches.Remedy]*batches.Task{}
	for _, v := range w.Variants() {
		seen[v.What] = v.Task
	}
	at := func(task *batches.Task) quantity.Temperature { return task.Room.At(3600) }
	base := w.Task
	if task := seen[batches.Remedy{Kind: batches.RoomTemperature, By: -4}]; at(base)-at(task) != 4 || task.Limits.Mandrel.At(3600) != at(task) {
		t.Error("the cooler room is not 4 K cooler, or its mandrel does not follow")
	}
	if task := seen[batches.Remedy{Kind: batches.ResinTemperature, By: -5}]; task.ResinShift != -5 || at(task) != at(base) {
		t.Error("the cooler resin is not 5 K cooler than the room it was")
	}
	if task := seen[batches.Remedy{Kind: batches.TowSpeed, Times: 1.25}]; !(task.Units[1].Time < base.Units[1].Time) || task.Units[1].Resin != base.Units[1].Resin {
		t.Error("the faster tow is not faster, or carries other resin")
	}
	if task := seen[batches.Remedy{Kind: batches.PotSize, Times: 2.0 / 3}]; !(task.Bath.Highest < base.Bath.Highest) || !(task.Pots.Largest < base.Pots.Largest) {
		t.Error("the smaller pots are not smaller")
	}
	if task := seen[batches.Remedy{Kind: batches.StopsInside}]; len(task.Units) <= len(base.Units) {
		t.Error("stops inside the layers add none")
	}
	slow := seen[batches.Remedy{Kind: batches.HardenerRate, Times: 0.5}]
	if a, b := slow.Resin.CureRate(0.1, 300), base.Resin.CureRate(0.1, 300); !(a < 0.51*b && a > 0.49*b) {
		t.Errorf("half as fast: %g against %g", a, b)
	}
}
