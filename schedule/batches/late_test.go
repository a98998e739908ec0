package batches

import (
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
)

// TestLateKeepsThePlan lets every pour of random plans come as late as is said, one at a time,
// and the judge, who follows a plan without the referee, look at the bath it was made for: it
// keeps the limits and the reserve. The delays mean something: twenty minutes more break
// many plans.
func TestLateKeepsThePlan(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 5))
	plans, delays, tight := 0, 0, 0
	for plans < 100 {
		task := randomTask(r)
		s, err := Solve(task)
		if err != nil {
			t.Fatal(err)
		}
		if !s.Feasible() {
			continue
		}
		plans++
		late, err := Late(task, s.Plan, s.Tally)
		if err != nil {
			t.Fatal(err)
		}
		for i, d := range late {
			if d == 0 {
				continue
			}
			delays++
			if !keeps(t, task, s.Plan.delayed(i, d)) {
				t.Errorf("plan %d, pour %d (%s), %.0f s late, breaks", plans, i, s.Plan.Pours[i].Into, float64(d))
			}
			if !keeps(t, task, s.Plan.delayed(i, d+1200)) {
				tight++
			}
			if end := s.Plan.End[lastOfLayer(task.Units, s.Plan.Pours[i].Stop)]; s.Plan.Pours[i].At+d > end {
				t.Errorf("plan %d, pour %d may come after its layer's end", plans, i)
			}
		}
	}
	t.Logf("%d delays in %d plans, %d break with twenty minutes more", delays, plans, tight)
	if delays < plans || tight < 10 {
		t.Errorf("%d delays, of which %d bind: the random plans test nothing", delays, tight)
	}
}

func keeps(t *testing.T, task *Task, plan *Plan) bool {
	t.Helper()
	chance, _, err := Judge(task, plan, []ensemble.Member{plan.Member})
	if err != nil {
		t.Fatal(err)
	}
	return chance.KeepsAll > 0.5 // of one member: all or none
}

// TestLateOfStandingCups: what stands mixed is to be poured as planned.
func TestLateOfStandingCups(t *testing.T) {
	task := bench(3, 20, 60)
	s, err := Solve(task)
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	plan := *s.Plan
	plan.Pours = append([]Pour(nil), plan.Pours...)
	pots := append([]MixedPot(nil), plan.Pours[0].Pots...)
	pots[0].Seq = 2
	plan.Pours[0].Pots = pots
	late, err := Late(task, &plan, s.Tally)
	if err != nil {
		t.Fatal(err)
	}
	if late[0] != 0 {
		t.Errorf("a standing cup may come %.0f s late", float64(late[0]))
	}
	if d := quantity.Time(300); plan.delayed(0, d).Pours[0].Pots[0].MixAt != pots[0].MixAt {
		t.Error("a delay mixes what is mixed")
	}
}
