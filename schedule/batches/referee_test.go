package batches

import (
	"math/rand/v2"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
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
		sure := ensemble.Sure(task.Spread, firstRung)
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
			t.Errorf("job %d: %s", job, broken)
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
		says   string
	}{
		{"a pot off the scale", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].Resin += 3e-5 }, "not a reading of the scale"},
		{"too little resin", func(_ *Task, p *Plan) {
			p.Pours[0].Pots[0].Resin -= 0.02
		}, "the bath is down to"},
		{"a reserve of hours", func(k *Task, _ *Plan) { k.Reserve = 20 * 3600 }, "are left where the reserve asks"},
		{"a lower limit", func(k *Task, _ *Plan) { k.Limits.BathTemperature = quantity.Celsius(22.1) }, "passes its limit bath_temperature"},
		{"a bath that is too small", func(k *Task, _ *Plan) { k.Bath.Highest = 0.13 }, "the bath holds"},
		{"a pot above the largest", func(k *Task, _ *Plan) { k.Pots.Largest = 0.09 }, "a pot of"},
		{"a forgotten layer", func(_ *Task, p *Plan) { p.End, p.Start = p.End[:3], p.Start[:3] }, "winds 3 of 5 units"},
		{"a wrong count", func(_ *Task, p *Plan) { p.Score.Pots++ }, "the plan says"},
		{"poured before mixed", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].MixAt += 60 }, "poured before it is mixed"},
		{"a layer that is wound too fast", func(_ *Task, p *Plan) { p.End[1] -= 30 }, "unit 1 winds"},
		{"no helper after all", func(k *Task, p *Plan) { k.Pots.Helper = false }, "before its mixers are free"},
		{"longer pauses", func(k *Task, _ *Plan) { k.Pause = 900 }, "before the pause is over"},
		{"a thick resin", func(k *Task, _ *Plan) { k.Resin = k.Resin.Adjusted(1, 2.2) }, "too thick"},
	} {
		task, plan := sound()
		c.tamper(task, plan)
		tally, err := Referee(task, plan)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if all := strings.Join(tally.Broken, "\n"); !strings.Contains(all, c.says) {
			t.Errorf("%s is not seen; the referee says %q", c.name, all)
		}
	}
}
