package batches

import (
	"slices"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// longDay is a winding of nine hours that one bath could be topped up for.
func longDay() *Task { return bench(16, 30, 110) }

// TestChangesBeforeWhatSticksGels: without the limit one bath is topped up all day; with it the bath
// is changed, and what is dumped is a heel that was run down to the lowest mass, to the rounding of
// pots to the scale: two parts a pot.
func TestChangesBeforeWhatSticksGels(t *testing.T) {
	solve := func(clean vessel.Clean) (*Task, *Solution) {
		task := longDay()
		task.Limits.Clean = clean
		s, err := Solve(task)
		if err != nil || !s.Feasible() {
			t.Fatal(s, err)
		}
		return task, s
	}
	free, one := solve(vessel.Uncleaned)
	if one.Plan.Score.Changes != 0 {
		t.Fatalf("%d changes without the limit", one.Plan.Score.Changes)
	}
	free.Limits.Clean = 0
	tally, err := Referee(free, one.Plan)
	if err != nil || !slices.ContainsFunc(tally.Broken, Broken{Promise: CleanInTime}.like) || !slices.ContainsFunc(tally.Broken, Broken{Promise: WithinLimits, Limit: vessel.NotClean}.like) {
		t.Errorf("of one bath for all day the referee says %+v, %v", tally.Broken, err)
	}
	for name, clean := range map[string]vessel.Clean{"film": 0, "time": vessel.Clean(4 * quantity.Time(3600))} {
		task, s := solve(clean)
		if s.Plan.Score.Changes == 0 {
			t.Errorf("%s: no change", name)
		}
		filled := quantity.Time(0)
		for _, p := range s.Plan.Pours {
			if p.Into == Change {
				heel := s.Tally.Units[p.Stop-1].Bath.Mass
				if over := heel - task.Bath.Lowest; !(over <= 2*task.Pots.Step*2) { // two pots at most since the last
					t.Errorf("%s: %v are dumped after unit %d", name, heel, p.Stop)
				}
				if used := s.Plan.End[p.Stop-1] - filled; clean > 0 && used > quantity.Time(clean) {
					t.Errorf("%s: a bath was used for %v", name, used)
				}
			}
			if fresh(p.Into) {
				filled = p.At
			}
		}
		if end := s.Plan.End[len(s.Plan.End)-1]; clean > 0 && end-filled > quantity.Time(clean) {
			t.Errorf("%s: the last bath was used for %v", name, end-filled)
		}
		if s.Chance.KeepsAll < EnoughMembers {
			t.Errorf("%s: %g of the baths keep the plan", name, s.Chance.KeepsAll)
		}
	}
}

// TestRefereeFollowsWhatSticks: the referee has the gel from a film and the bath's temperatures, the
// watch from the bath. Of baths that are left in use too long both must tell, and of the longest that
// the one allows the other must not: within slackStuck.
func TestRefereeFollowsWhatSticks(t *testing.T) {
	task := longDay()
	task.Limits.Clean = vessel.Uncleaned
	s, err := Solve(task)
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	task.Limits.Clean = 0
	task.Reserve = 0
	tally, err := Referee(task, s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	byFilm := tally.Broken[slices.IndexFunc(tally.Broken, Broken{Promise: CleanInTime}.like)].At
	byWatch := tally.Broken[slices.IndexFunc(tally.Broken, Broken{Promise: WithinLimits, Limit: vessel.NotClean}.like)].At
	filled := s.Plan.Pours[0].At
	if off := float64(byFilm-byWatch) / float64(byWatch-filled); !(off <= slackStuck && off >= -slackStuck) {
		t.Errorf("by a film it gels at %v, by the bath at %v: %.1g", byFilm, byWatch, off)
	} else {
		t.Logf("by a film at %.1f s, by the bath at %.1f s: %.1g", float64(byFilm), float64(byWatch), off)
	}
}
