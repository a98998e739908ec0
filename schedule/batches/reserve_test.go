package batches

import (
	"math/rand/v2"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
)

// TestMoreReserveNeverWaitsLonger: on random jobs, with more reserve there is a plan only
// where there is one with less, which is then no worse; and the plan made for more reserve
// leaves each of its pours no later with it than with less. The search is held to the whole
// family of plans elsewhere; both rules follow from what a plan must keep.
func TestMoreReserveNeverWaitsLonger(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	jobs := testrun.Count(30, 150)
	both, lost, worse, shorter := 0, 0, 0, 0
	for range jobs {
		task := randomTask(r)
		more := *task
		task.Reserve = quantity.Time(60 * r.Float64() * 15)
		more.Reserve = task.Reserve + quantity.Time(60*(1+r.Float64()*30))
		sure := sureOf(t, task, firstRung)
		little, found := searched(t, task, sure), searched(t, &more, sure)
		switch {
		case found == nil && little != nil:
			lost++
			continue
		case found == nil:
			continue
		case little == nil:
			t.Fatalf("a plan with %v of reserve and none with %v", more.Reserve, task.Reserve)
		}
		both++
		if found.Score.Better(little.Score) {
			t.Errorf("with %v of reserve %+v, with %v %+v", more.Reserve, found.Score, task.Reserve, little.Score)
		}
		if little.Score.Better(found.Score) {
			worse++
		}
		a, b := delays(t, task, found), delays(t, &more, found)
		for i := range a {
			// A pour that nothing but its layer's end holds back is not touched by the reserve.
			if !(b[i] <= a[i]) {
				t.Errorf("pour %d may wait %v with %v of reserve and %v with %v", i, b[i], more.Reserve, a[i], task.Reserve)
			}
			if b[i] < a[i] {
				shorter++
			}
		}
	}
	t.Logf("%d jobs: %d with both plans, %d that more reserve makes worse, %d impossible; %d pours may wait less", jobs, both, worse, lost, shorter)
	if both < jobs/10 || lost == 0 || worse == 0 || shorter < both/4 {
		t.Error("the random jobs test nothing")
	}
}

// searched is the best plan on one bath, nil where there is none.
func searched(t *testing.T, task *Task, sure Sure) *Plan {
	t.Helper()
	p, _, err := newSearch(task, sure, 0).run()
	if err != nil {
		t.Fatal(err)
	}
	if p == nil {
		return nil
	}
	return p.plan(task, sure)
}

// delays are those of the pours of a plan before the referee looks at them: he halves what
// he does not confirm, which keeps no order.
func delays(t *testing.T, task *Task, plan *Plan) []quantity.Time {
	t.Helper()
	tally, err := Referee(task, plan)
	if err != nil {
		t.Fatal(err)
	}
	list := make([]quantity.Time, len(plan.Pours))
	for i := range list {
		list[i] = delay(task, plan, tally, i)
	}
	return list
}
