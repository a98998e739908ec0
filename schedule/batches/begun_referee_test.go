package batches

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestRefereeSeesBrokenBeginnings: a plan that takes more from its beginning
// than is there is not confirmed.
func TestRefereeSeesBrokenBeginnings(t *testing.T) {
	// All that is needed, in one go: two cups and a fresh pot.
	sound := func() (*Task, *Plan) {
		task := begun(4, 15, 60, 0.13, 600)
		task.Begin.Cups = []MixedPot{cup(task, 0.1, 300, 4), cup(task, 0.09, 200, 5)}
		c := newCrew(task, ensemble.Nominal())
		start, err := c.begin()
		if err != nil {
			t.Fatal(err)
		}
		end, breach, err := c.travel(start, TopUp, 4)
		if err != nil || breach != nil || len(end.pour.Pots) != 3 {
			t.Fatal(end, breach, err)
		}
		return task, end.plan(task, ensemble.Nominal())
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
		{"a cup that is not there", func(k *Task, _ *Plan) { k.Begin.Cups = k.Begin.Cups[:1] }, "pot 5, poured after unit 0, does not stand mixed"},
		{"a cup poured twice", func(_ *Task, p *Plan) { p.Pours[0].Pots[1] = p.Pours[0].Pots[0] }, "pot 4, poured after unit 0, does not stand mixed"},
		{"a cup of another age", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].MixAt += 60 }, "pot 4, poured after unit 0, does not stand mixed"},
		{"a fresh pot from the past", func(_ *Task, p *Plan) { p.Pours[0].Pots[1].Seq = 0 }, "before its mixers are free at 3600 s"},
		{"a cup kept for later", func(_ *Task, p *Plan) {
			late := p.Pours[0]
			late.Stop, late.At, late.Winds, late.Pots = 1, p.End[0]+100, p.Start[1], late.Pots[1:2]
			p.Pours[0].Pots = []MixedPot{p.Pours[0].Pots[0], p.Pours[0].Pots[2]}
			p.Pours = append(p.Pours, late)
		}, "pot 5, poured after unit 1, does not stand mixed"},
		{"a cup forgotten", func(k *Task, _ *Plan) { k.Begin.Cups = append(k.Begin.Cups, cup(k, 0.1, 100, 6)) }, "of waste"},
		{"cups too old", func(k *Task, p *Plan) {
			for i := range k.Begin.Cups {
				k.Begin.Cups[i].MixAt -= 40_000
				p.Pours[0].Pots[i].MixAt -= 40_000
			}
		}, "the cup poured after unit 0 is at"},
		{"a bath that is over", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.Over = vessel.Gel
				return h, err
			}
		}, "a bath is used whose life has been ended by gel"},
		{"an empty bath", func(k *Task, _ *Plan) { k.Begin.Filled = false }, "a top-up at stop 0"},
		{"a longer pause", func(k *Task, _ *Plan) { k.Begin.Pause = 3000 }, "before the pause is over"},
		{"a life that asks more", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.Life = quantity.Time(math.Inf(1))
				return h, err
			}
		}, "where the reserve asks 34560 s"},
		{"wound on instead", func(_ *Task, p *Plan) { p.Pours[0].Into = None }, "or another time"},
		{"nothing said", func(_ *Task, p *Plan) { p.Pours = nil }, "nothing is said of the bath"},
		{"time turned back", func(_ *Task, p *Plan) {
			p.Pours[0].Pots, p.Pours[0].At = p.Pours[0].Pots[:2], 3000
		}, "before what comes before it ends"},
		{"a gelled layer unseen", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.BaseGels = 3000
				return h, err
			}
		}, "the plan says 0 changes, 0 layers"},
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
