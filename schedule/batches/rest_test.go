package batches

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
)

// restOf is the task of winding what is left after k units of a plan that went
// as it was made: each member has in the bath what the plan's first pours gave
// it, and pots whose mixing has begun stand in their cups.
func restOf(task *Task, plan *Plan, k int) *Task {
	rest := *task
	rest.Units = task.Units[k:]
	rest.Begin = Beginning{At: plan.End[k-1], Pause: quantity.Time(task.pauseAfter(k)), Filled: true}
	for _, pour := range plan.Pours {
		for _, pot := range pour.Pots {
			if pour.Stop >= k && pot.MixAt < rest.Begin.At {
				pot.Seq = len(rest.Begin.Cups) + 1
				rest.Begin.Cups = append(rest.Begin.Cups, pot)
			}
		}
	}
	rest.Heel = func(m ensemble.Member) (Heel, error) { return heelAfter(task, plan, k, m) }
	return &rest
}

// heelAfter follows the first k units of a plan with a member.
func heelAfter(task *Task, plan *Plan, k int, m ensemble.Member) (Heel, error) {
	states, err := Course(task, plan, m, []quantity.Time{plan.End[k-1]})
	if err != nil {
		return Heel{}, err
	}
	h := Heel{State: states[0]}
	c := newCrew(task, m)
	at, err := c.begin()
	if err != nil {
		return Heel{}, err
	}
	strict := at
	for i, pour := range plan.Pours {
		if pour.Stop >= k {
			break
		}
		to := k
		if i+1 < len(plan.Pours) {
			to = min(to, plan.Pours[i+1].Stop)
		}
		l := leg{crew: c, from: at, into: pour.Into, to: to, lenient: true}
		breach, err := l.run(pour)
		if err != nil {
			return Heel{}, err
		}
		h.Life = l.fresh.Left
		if breach != nil {
			if h.Over = breach.Limit; breach.Why == ByHeel {
				h.Over = vessel.Gel
			}
			break
		}
		p := l.p
		at = &p
		if strict != nil { // the films, as far as the member keeps the plan
			s := leg{crew: c, from: strict, into: pour.Into, to: to}
			if breach, err = s.run(pour); err != nil {
				return Heel{}, err
			}
			next := s.p
			if strict = &next; breach != nil {
				strict = nil
			}
		}
	}
	h.LaidGels, h.BaseGels = quantity.Time(math.Inf(1)), quantity.Time(math.Inf(1))
	if strict != nil {
		h.LaidGels, h.BaseGels = quantity.Time(strict.laidGels), quantity.Time(strict.baseGels)
	}
	return h, nil
}

// oldRest is the plan's own rest as a plan of the rest's task, with the score
// that the referee sees.
func oldRest(t *testing.T, rest *Task, plan *Plan, k int) *Plan {
	t.Helper()
	old := &Plan{Start: plan.Start[k:], End: plan.End[k:], Member: plan.Member}
	seq := map[quantity.Time]int{}
	for _, cup := range rest.Begin.Cups {
		seq[cup.MixAt] = cup.Seq
	}
	for _, pour := range plan.Pours {
		if pour.Stop < k {
			continue
		}
		pour.Stop -= k
		if len(old.Pours) == 0 && pour.Stop > 0 {
			old.Pours = append(old.Pours, Pour{At: rest.Begin.At, Winds: rest.Begin.At + rest.Begin.Pause})
		}
		pour.Pots = append([]MixedPot(nil), pour.Pots...)
		for i := range pour.Pots {
			pour.Pots[i].Seq = seq[pour.Pots[i].MixAt]
		}
		old.Pours = append(old.Pours, pour)
	}
	if len(old.Pours) == 0 {
		old.Pours = []Pour{{At: rest.Begin.At, Winds: rest.Begin.At + rest.Begin.Pause}}
	}
	tally, err := Referee(rest, old)
	if err != nil {
		t.Fatal(err)
	}
	old.Score = tally.Score
	if tally, err = Referee(rest, old); err != nil || len(tally.Broken) > 0 {
		t.Errorf("after %d units the rest of the plan does not hold: %v, %v", k, tally.Broken, err)
	}
	return old
}

// checkRest plans the rest of a plan after k units anew. The rest of the old
// plan is one of those that the search has to choose from, so the new one is no
// worse in changes, layers on gelled ones and pots, in waste by one step at most,
// and where all these are the same its pours come at the same times, or it has
// more to spare, or less waste. same tells that its pours come at the same times
// as before, to a minute.
func checkRest(t *testing.T, task *Task, plan *Plan, k int) (same bool) {
	t.Helper()
	rest := restOf(task, plan, k)
	old := oldRest(t, rest, plan, k)
	found, tally, breach, err := newSearcher(rest).confirmed(plan.Member)
	if err != nil || found == nil {
		t.Errorf("after %d units there is no plan for the rest: %+v, %v", k, breach, err)
		return false
	}
	for _, broken := range tally.Broken {
		t.Errorf("after %d units: %+v", k, broken)
	}
	a, b := found.Score, old.Score
	if b.Better(a) {
		t.Errorf("after %d units the new plan is worse: %+v, the rest of the old one is %+v", k, a, b)
	}
	if a.Better(b) {
		return false
	}
	s := newSearch(rest, plan.Member, 0)
	start, err := s.crew.begin()
	if err != nil {
		t.Fatal(err)
	}
	s.bounds(start)
	if !(float64(a.Waste-b.Waste) <= s.wasteStep) {
		t.Errorf("after %d units the new plan wastes %v, the rest of the old one %v; a step is %g kg", k, a.Waste, b.Waste, s.wasteStep)
	}
	if same = samePours(found, old); same {
		return true
	}
	// What the referee saw of both: the score of a plan knows the spare only at
	// the moments that the search asked about. The buckets of the fine grain and
	// what lies between those moments are worth a minute.
	if spared := tally.Score.Spare - b.Spare; !(spared >= -60) && !(b.Waste-a.Waste > 0) {
		t.Errorf("after %d units pours differ for nothing: spare %v, before %v; waste %v, before %v\nnew %+v\nold %+v",
			k, tally.Score.Spare, b.Spare, a.Waste, b.Waste, found.Pours, old.Pours)
	}
	return false
}

// samePours tells whether two plans pour the same at the same times, to a minute
// and to 2 %: fresh pots beside cups that stand are divided anew.
func samePours(a, b *Plan) bool {
	if len(a.Pours) != len(b.Pours) {
		return false
	}
	for i := range a.Pours {
		p, q := &a.Pours[i], &b.Pours[i]
		if p.Stop != q.Stop || p.Into != q.Into || !(math.Abs(float64(p.At-q.At)) <= 60) ||
			!(math.Abs(float64(p.Mass()-q.Mass())) <= 0.02*float64(q.Mass())) {
			return false
		}
	}
	return true
}

// TestRestOfRandomPlans: a plan that is made again after any of its units, with
// the bath as it foresaw, goes on as it was or better.
func TestRestOfRandomPlans(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 4))
	wanted := testrun.Count(30, 150)
	same, cups := 0, 0
	for n := 0; n < wanted; {
		task := randomTask(r)
		plan, tally, _, err := newSearcher(task).confirmed(sureOf(t, task, firstRung))
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil || len(tally.Broken) > 0 || len(task.Units) < 2 {
			continue
		}
		n++
		k := 1 + r.IntN(len(task.Units)-1)
		if checkRest(t, task, plan, k) {
			same++
		}
		cups += min(1, len(restOf(task, plan, k).Begin.Cups))
	}
	t.Logf("%d of %d rests are planned as before; %d have pots mixed already", same, wanted, cups)
	if same < wanted/2 || cups < wanted/20 {
		t.Errorf("only %d of %d rests are planned as before, %d have pots mixed already", same, wanted, cups)
	}
}

// TestRestIsKeptByThoseThatKeptTheWhole: a member that keeps a plan from its
// start keeps it from its middle.
func TestRestIsKeptByThoseThatKeptTheWhole(t *testing.T) {
	task := strut(6)
	s, err := Solve(task)
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	for k := 1; k < len(task.Units); k++ {
		rest := restOf(task, s.Plan, k)
		chance, _, err := Judge(rest, oldRest(t, rest, s.Plan, k), task.Members())
		if err != nil {
			t.Fatal(err)
		}
		if chance.KeepsAll < s.Chance.KeepsAll || chance.KeepsLimits < s.Chance.KeepsLimits {
			t.Errorf("after %d units %+v keep the rest, of the whole %+v", k, chance, s.Chance)
		}
		again, err := Solve(rest)
		if err != nil {
			t.Fatal(err)
		}
		if !again.Feasible() || s.Plan.Score.Better(again.Plan.Score) {
			t.Errorf("after %d units: %+v, %+v", k, again.Plan, again.Breach)
		}
	}
}
