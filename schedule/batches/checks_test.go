package batches

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

// CheckSolution returns what does not hold of a solution.
func CheckSolution(t *Task, s *Solution) error {
	if !s.Feasible() && s.Breach == nil {
		return errors.New("no plan and no reason")
	}
	if b := s.Breach; b != nil {
		if err := reasoned(b); err != nil {
			return err
		}
	}
	if s.Plan == nil {
		return nil
	}
	if s.Chance.KeepsLimits < s.Chance.KeepsAll || !(s.Chance.KeepsAll >= 0 && s.Chance.KeepsLimits <= 1) {
		return fmt.Errorf("chances %+v", s.Chance)
	}
	tally, err := Referee(t, s.Plan)
	if err != nil {
		return err
	}
	if s.Feasible() && (len(tally.Broken) > 0 || s.Chance.KeepsAll < EnoughMembers) {
		return fmt.Errorf("called feasible: %+v, %+v", s.Chance, tally.Broken)
	}
	return errors.Join(massesAddUp(t, s.Plan), timesAscend(t, s.Plan))
}

// reasoned tells of a breach that a crew could make nothing of.
func reasoned(b *Breach) error {
	why := b.Why
	if why == ByChance {
		why = b.Most
	}
	switch why {
	case ByLimit, ByReserve:
		if b.Limit == "" && float64(b.Left) < lifeHorizon {
			return fmt.Errorf("%s, but which limit is not said: %+v", why, b)
		}
	case ByHighest, ByHeel, ByReferee:
	default:
		return fmt.Errorf("a breach by %q: %+v", why, b)
	}
	return nil
}

// massesAddUp: what is mixed and what was there is carried off or wasted.
func massesAddUp(t *Task, p *Plan) error {
	here := t.standing()
	if t.Begin.Filled {
		h, err := t.heel(p.Member, false)
		if err != nil {
			return err
		}
		here += float64(h.State.Mass)
	}
	for i := range p.Pours {
		for _, pot := range p.Pours[i].Pots {
			if pot.Seq == 0 {
				here += float64(pot.Mass())
			}
		}
	}
	gone := t.carried(0, len(t.Units)) + float64(p.Score.Waste)
	// The bath is integrated to a relative 1e-6 or so of what it holds.
	if d := here - gone; !(math.Abs(d) <= 1e-5*here) {
		return fmt.Errorf("%g kg come and %g kg go", here, gone)
	}
	return nil
}

func timesAscend(t *Task, p *Plan) error {
	now := t.Begin.At
	for u := range p.Start {
		if p.Start[u] < now || !(p.End[u] > p.Start[u]) {
			return fmt.Errorf("unit %d is wound from %v to %v, after %v", u, p.Start[u], p.End[u], now)
		}
		now = p.End[u]
	}
	if float64(now) > t.latest() {
		return fmt.Errorf("ends at %v, after the latest of all, %g s", now, t.latest())
	}
	for i := range p.Pours {
		for _, pot := range p.Pours[i].Pots {
			if pot.MixAt < t.Begin.At && pot.Seq == 0 {
				return fmt.Errorf("a pot is begun at %v, before the plan", pot.MixAt)
			}
		}
	}
	return nil
}

// WildTally counts what wild jobs came to.
type WildTally struct {
	Feasible, Infeasible, TopUps, Changes, Gelled, Coarse int
	Equal, NoneBoth                                       int // as the whole family of plans has it
}

// Count counts a solution.
func (w *WildTally) Count(s *Solution) {
	if !s.Feasible() {
		w.Infeasible++
		return
	}
	w.Feasible++
	score := s.Plan.Score
	if len(s.Plan.Pours) > 1+score.Changes {
		w.TopUps++
	}
	if score.Changes > 0 {
		w.Changes++
	}
	if score.Gelled > 0 {
		w.Gelled++
	}
	if s.Plan.Coarse {
		w.Coarse++
	}
}

func (w *WildTally) String() string {
	return fmt.Sprintf("%d feasible (%d with top-ups, %d with changes, %d with layers on gelled ones, %d coarse), %d infeasible; the whole family agrees on %d with a plan and %d without",
		w.Feasible, w.TopUps, w.Changes, w.Gelled, w.Coarse, w.Infeasible, w.Equal, w.NoneBoth)
}

// walkable is how many units of a task have a family of plans that can be walked:
// 3^6 plans, each leg simulated.
const walkable = 6

// CheckFamily compares the search on one sure bath with the walk through the whole
// family of plans, where that can be walked.
func CheckFamily(t *testing.T, name string, task *Task, tally *WildTally) {
	t.Helper()
	if len(task.Units) > walkable {
		return
	}
	s := newSearch(task, sureOf(t, task, firstRung), 0)
	found, breach, err := s.run()
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	start, err := s.crew.begin()
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	best := everyPlan(t, s, start)
	switch {
	case best == nil && found == nil:
		tally.NoneBoth++
		if breach == nil {
			t.Errorf("%s: no plan and no reason", name)
		}
		return
	case best == nil || found == nil:
		t.Errorf("%s: search found a plan: %v, the whole family has one: %v", name, found != nil, best != nil)
		return
	}
	a, b := found.score, best.score
	step := float64(task.Pots.Step) * float64(b.Pots)
	if a.Changes != b.Changes || a.Gelled != b.Gelled || a.Pots != b.Pots || !(math.Abs(float64(a.Waste-b.Waste)) <= step) {
		t.Errorf("%s: search %+v, whole family %+v; a step a pot is %g kg", name, a, b, step)
		return
	}
	tally.Equal++
}
