package batches

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/testrun"
)

// TestCoarseGrainIsNearTheFine: on windings that both can search, the coarse
// grain finds a plan wherever the fine one does, never a better one by changes,
// and one with more changes in one of eight at most. What it costs is told with
// every plan made so.
func TestCoarseGrainIsNearTheFine(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	wanted := testrun.Count(10, 40)
	more := 0
	for n := 0; n < wanted; {
		task := randomTask(r)
		units := task.Units
		task.Units = nil
		for i := range 10 + r.IntN(8) {
			u := units[i%len(units)]
			u.Layer = i
			u.Time *= 0.6
			task.Units = append(task.Units, u)
		}
		task.Resin = medium(math.Exp(1.6 * r.Float64()))
		sure := sureOf(t, task, firstRung)
		finely := newSearch(task, sure, 0)
		finely.grain.effort = 0
		fine, _, err := finely.run()
		if err != nil {
			t.Fatal(err)
		}
		if fine == nil {
			continue
		}
		n++
		s := newSearch(task, sure, 0)
		s.grain = grains[len(grains)-1]
		if err := s.chooseStops(); err != nil {
			t.Fatal(err)
		}
		coarse, breach, err := s.run()
		if err != nil {
			t.Fatal(err)
		}
		switch {
		case coarse == nil:
			t.Errorf("the coarse grain finds no plan: %+v; the fine one has %+v", breach, fine.score)
		case coarse.score.Changes < fine.score.Changes:
			t.Errorf("the coarse grain is better: %+v, fine %+v", coarse.score, fine.score)
		case coarse.score.Changes > fine.score.Changes:
			more++
		}
	}
	t.Logf("%d of %d windings have more changes in the coarse grain", more, wanted)
	if more > wanted/8 {
		t.Errorf("%d of %d windings have more changes", more, wanted)
	}
}

// TestStopsAreThinned: stops are about a sixth of a bathful apart, the end is
// always one, and a unit larger than that stands alone.
func TestStopsAreThinned(t *testing.T) {
	task := bench(100, 2, 10)
	task.Resin = medium(0.2) // lives long enough for the mass to decide
	s := newSearch(task, ensemble.Nominal(), 0)
	s.grain = grains[len(grains)-1]
	if err := s.chooseStops(); err != nil {
		t.Fatal(err)
	}
	// 580 g between lowest and highest, a sixth is 97 g: nine layers of 10 g.
	if s.stops[0] != 9 || s.stops[len(s.stops)-1] != 100 || len(s.stops) != 12 {
		t.Errorf("stops %v", s.stops)
	}
	if s.nextStop(0) != 9 || s.nextStop(9) != 18 || s.nextStop(99) != 100 || s.nextStop(100) != 100 {
		t.Error("the next stop is not the next")
	}
	large := newSearch(bench(5, 2, 200), ensemble.Nominal(), 0)
	large.grain = grains[len(grains)-1]
	if err := large.chooseStops(); err != nil || len(large.stops) != 5 {
		t.Errorf("large layers stop at %v: %v", large.stops, err)
	}
}
