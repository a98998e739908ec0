package schedule_test

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// afterLayers is a demo job with so many layers wound by its plan.
func afterLayers(t *testing.T, name string, layers int) *schedule.Winding {
	t.Helper()
	w := demo(t, name)
	plan := solved(t, w.Task).Plan
	rest := *w.Task
	for rest.Units[0].Layer < layers {
		rest.Units = rest.Units[1:]
	}
	now := plan.End[len(w.Task.Units)-len(rest.Units)-1]
	rest.Begin = batches.Beginning{At: now, Pause: rest.Pause, Filled: true}
	rest.Heel = func(m ensemble.Member) (batches.Heel, error) {
		states, err := batches.Course(w.Task, plan, m, []quantity.Time{now})
		never := quantity.Time(math.Inf(1))
		return batches.Heel{State: states[0], Life: 7200, LaidGels: never, BaseGels: never}, err
	}
	begun := *w
	begun.Task = &rest
	return &begun
}

// TestBandOfARest: the band of a plan from the middle of a day begins where the
// plan does, with the resin that is in the bath.
func TestBandOfARest(t *testing.T) {
	w := afterLayers(t, "telescope-strut.yaml", 2)
	s := solved(t, w.Task)
	band, err := w.Band(s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	if !band.At[0].Equal(w.Job.Clock(w.Task.Begin.At)) || !(band.Low[0] > 0 && band.High[0] > band.Low[0]) {
		t.Errorf("begins at %v with %v to %v", band.At[0], band.Low[0], band.High[0])
	}
	// Of an ensemble that readings have made one bath, the band is a line.
	w.Task.Drawn = []ensemble.Member{w.Task.Likely()}
	if band, err = w.Band(s.Plan); err != nil || band.Low[0] != band.High[0] {
		t.Errorf("of one bath the band is %v to %v wide: %v", band.Low[0], band.High[0], err)
	}
	likely, err := w.LikelyViscosities(s.Plan)
	if err != nil || len(likely) != len(w.Task.Units) || !(math.Abs(float64(likely[0])) > 0) {
		t.Errorf("likely viscosities %v, %v", likely, err)
	}
}

// TestVariantsOfARest: in the middle of a day a variant keeps what is in the bath
// and what is still to be wound, and none needs another hardener.
func TestVariantsOfARest(t *testing.T) {
	w := afterLayers(t, "softener-shell.yaml", 3)
	variants := w.Variants()
	if len(variants) < 3 {
		t.Errorf("only %d variants", len(variants))
	}
	for _, v := range variants {
		if v.What.Kind == batches.HardenerRate || v.What.Kind == batches.StopsInside {
			t.Errorf("%+v, when it is too late", v.What)
		}
		if !v.Task.Begun() || v.Task.Begin.At != w.Task.Begin.At || len(v.Task.Units) != len(w.Task.Units) {
			t.Errorf("%+v begins elsewhere: %+v, %d units", v.What, v.Task.Begin, len(v.Task.Units))
		}
	}
}

// TestRestWithStopsInsideItsLayers: a rest that may be stopped inside its layers
// is planned with stops at layer ends too, and never worse than so.
func TestRestWithStopsInsideItsLayers(t *testing.T) {
	w := afterLayers(t, "telescope-strut.yaml", 2)
	layers := solved(t, w.Task).Plan.Score
	var units []batches.Unit
	for _, u := range w.Task.Units {
		half := u
		half.Time, half.Resin, half.FibreWeight = u.Time/2, u.Resin/2, u.FibreWeight/2
		first := half
		first.EndsLayer, first.Circuits = false, u.Circuits/2
		units = append(units, first, half)
	}
	job := *w.Job
	job.Circuits = true
	w.Job, w.Task.Units = &job, units[1:] // half of the first is wound already
	s, err := w.Solve()
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	if layers.Better(s.Plan.Score) {
		t.Errorf("%+v, with more to wind and fewer stops %+v", s.Plan.Score, layers)
	}
	if n := len(w.Task.Units); n != len(s.Plan.End) || !w.Job.Circuits && n != len(units)/2 {
		t.Errorf("%d units, %d of them planned, circuits %v", n, len(s.Plan.End), w.Job.Circuits)
	}
}
