package batches

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/testrun"
)

// everyPlan walks the whole family of plans from p, with neither bounds nor
// buckets, and returns the best complete one. Cups that stand are poured at the
// next pour or thrown away.
func everyPlan(t *testing.T, s *search, p *position) *position {
	t.Helper()
	if p.stop == s.total {
		return p
	}
	ways := []Into{TopUp, Change}
	switch {
	case p.stop == 0 && s.task.Begin.Filled:
		ways = append(ways, None)
	case p.stop == 0:
		ways = []Into{Fill}
	}
	best := everyLeg(t, s, p, ways)
	if p.standing {
		thrown := *p
		thrown.standing = false
		for _, cup := range s.task.Begin.Cups {
			thrown.dumped += float64(cup.Mass())
		}
		if end := everyLeg(t, s, &thrown, ways); end != nil && (best == nil || s.compare(end, best) < 0) {
			best = end
		}
	}
	return best
}

func everyLeg(t *testing.T, s *search, p *position, ways []Into) *position {
	t.Helper()
	var best *position
	for _, into := range ways {
		for to := p.stop + 1; to <= s.total; to++ {
			next, breach, err := s.crew.travel(p, into, to)
			if err != nil {
				t.Fatal(err)
			}
			if breach != nil {
				continue
			}
			next.wasteSteps = s.wasteSteps(next)
			end := everyPlan(t, s, next)
			// Best first finds the best only if what is still to come is never
			// overrated.
			if end != nil && (next.wasteSteps > end.wasteSteps || next.score.Pots+s.potsLeft(next) > end.score.Pots) {
				t.Errorf("%d steps of waste and %d more pots were thought the least, then came %d and %d",
					next.wasteSteps, s.potsLeft(next), end.wasteSteps, end.score.Pots-next.score.Pots)
			}
			if end != nil && (best == nil || s.compare(end, best) < 0) {
				best = end
			}
		}
	}
	return best
}

// TestSearchEqualsExhaustiveSearch: on at least 300 random small jobs (60 in the default suite) with a
// plan, and as many without, the search and the walk through the whole family
// on the same sure bath agree: feasible or not, changes, layers on gelled ones,
// pots; waste within one step of the scale a pot.
func TestSearchEqualsExhaustiveSearch(t *testing.T) {
	r := rand.New(rand.NewPCG(20261125, 1))
	wanted := testrun.Count(60, 320)
	feasible, changed, topped, gelled, differentSpare := 0, 0, 0, 0, 0
	for job := 0; feasible < wanted; job++ {
		if job > 40*wanted {
			t.Fatalf("only %d of %d random jobs have a plan: the generator is off", feasible, job)
		}
		task := randomTask(r)
		sure := sureOf(t, task, firstRung)
		s := newSearch(task, sure, 0)
		found, breach, err := s.run()
		if err != nil {
			t.Fatal(err)
		}
		start, err := s.crew.begin()
		if err != nil {
			t.Fatal(err)
		}
		best := everyPlan(t, s, start)
		if (best == nil) != (found == nil) {
			t.Fatalf("job %d: search found a plan: %v, the whole family has one: %v", job, found != nil, best != nil)
		}
		if best == nil {
			if breach == nil {
				t.Fatalf("job %d: no plan and no reason", job)
			}
			continue
		}
		feasible++
		a, b := found.score, best.score
		if a.Changes != b.Changes || a.Gelled != b.Gelled || a.Pots != b.Pots {
			t.Errorf("job %d: search %+v, whole family %+v", job, a, b)
		}
		step := float64(task.Pots.Step) * float64(b.Pots)
		if !(math.Abs(float64(a.Waste-b.Waste)) <= step) {
			t.Errorf("job %d: waste %v, whole family %v, one step a pot is %g kg", job, a.Waste, b.Waste, step)
		}
		if math.Abs(float64(a.Spare-b.Spare)) > 2 {
			differentSpare++
		}
		if a.Changes > 0 {
			changed++
		}
		if a.Gelled > 0 {
			gelled++
		}
		if len(found.plan(task, sure).Pours) > 1+a.Changes {
			topped++
		}
	}
	t.Logf("%d feasible jobs: %d with changes, %d with top-ups, %d with layers on gelled ones; spare differs by more than 2 s in %d",
		feasible, changed, topped, gelled, differentSpare)
	// A generator that never makes the hard cases tests nothing.
	if changed < wanted/20 || topped < wanted/10 {
		t.Errorf("too few hard cases: %d with changes, %d with top-ups", changed, topped)
	}
}
