package batches

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
)

// TestRandomPlansPassTheReferee: every plan that the search makes for thousands
// of random jobs holds in an independent simulation at strict tolerance.
func TestRandomPlansPassTheReferee(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	wanted := testrun.Count(200, 2000)
	for plans, job := 0, 0; plans < wanted; job++ {
		if job > 40*wanted {
			t.Fatalf("only %d of %d random jobs have a plan", plans, job)
		}
		task := randomTask(r)
		sure := sureOf(t, task, firstRung)
		plan, tally, _, err := newSearcher(task).confirmed(sure)
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			continue
		}
		plans++
		if end := float64(plan.End[len(plan.End)-1]); end > task.latest() {
			t.Errorf("job %d ends at %g s, after the latest of all, %g s", job, end, task.latest())
		}
		for _, broken := range tally.Broken {
			t.Errorf("job %d: %+v", job, broken)
		}
	}
}

// TestRefereeSeesBrokenPromises: a plan that is tampered with is not confirmed.
func TestRefereeSeesBrokenPromises(t *testing.T) {
	sound := func() (*Task, *Plan) {
		task := bench(5, 15, 60)
		plan, _, breach, err := newSearcher(task).confirmed(ensemble.Nominal())
		if err != nil || plan == nil {
			t.Fatal(breach, err)
		}
		return task, plan
	}
	task, plan := sound()
	if tally, err := Referee(task, plan); err != nil || len(tally.Broken) > 0 {
		t.Fatalf("a sound plan is not confirmed: %v %v", tally.Broken, err)
	}
	for _, c := range []struct {
		name   string
		tamper func(*Task, *Plan)
		want   Broken // what is 0 in it may be anything
	}{
		{"a pot off the scale", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].Resin += 3e-5 }, Broken{Promise: PotOnScale}},
		{"too little resin", func(_ *Task, p *Plan) {
			p.Pours[0].Pots[0].Resin -= 0.02
		}, Broken{Promise: AboveLowest, Unit: 4}},
		{"a reserve of hours", func(k *Task, _ *Plan) { k.Reserve = 20 * 3600 }, Broken{Promise: ReserveStands, Want: 20 * 3600}},
		{"a lower limit", func(k *Task, _ *Plan) { k.Limits.BathTemperature = quantity.Celsius(22.1) }, Broken{Promise: WithinLimits, Limit: vessel.BathTemperature}},
		{"a bath that is too small", func(k *Task, _ *Plan) { k.Bath.Highest = 0.13 }, Broken{Promise: WithinHighest, Want: 0.13}},
		{"a pot above the largest", func(k *Task, _ *Plan) { k.Pots.Largest = 0.09 }, Broken{Promise: PotInBounds}},
		{"a forgotten layer", func(_ *Task, p *Plan) { p.End, p.Start = p.End[:3], p.Start[:3] }, Broken{Promise: AllWound, Got: 3, Want: 5}},
		{"a wrong count", func(_ *Task, p *Plan) { p.Score.Pots++ }, Broken{Promise: CountsAgree}},
		{"poured before mixed", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].MixAt += 60 }, Broken{Promise: PotMixed}},
		{"a layer that is wound too fast", func(_ *Task, p *Plan) { p.End[1] -= 30 }, Broken{Promise: UnitTime, Unit: 1}},
		{"no helper after all", func(k *Task, p *Plan) { k.Pots.Helper = false }, Broken{Promise: MixersFree}},
		{"longer pauses", func(k *Task, _ *Plan) { k.Pause = 900 }, Broken{Promise: PauseKept}},
		{"a thick resin", func(k *Task, _ *Plan) { k.Resin = k.Resin.Adjusted(1, 2.2) }, Broken{Promise: ThinEnough}},
	} {
		task, plan := sound()
		c.tamper(task, plan)
		tally, err := Referee(task, plan)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if !slices.ContainsFunc(tally.Broken, c.want.like) {
			t.Errorf("%s is not seen; the referee says %+v", c.name, tally.Broken)
		}
	}
}

// like tells whether another is the same in all that this one says.
func (b Broken) like(other Broken) bool {
	same := func(want, got float64) bool { return want == 0 || math.Abs(got/want-1) <= 1e-9 }
	return other.Promise == b.Promise && (b.Unit == 0 || other.Unit == b.Unit) && (b.Pot == 0 || other.Pot == b.Pot) &&
		(b.Limit == "" || other.Limit == b.Limit) && same(b.Got, other.Got) && same(b.Want, other.Want)
}
