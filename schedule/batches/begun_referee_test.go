package batches

import (
	"math"
	"slices"
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
		want   Broken // what is 0 in it may be anything
	}{
		{"a cup that is not there", func(k *Task, _ *Plan) { k.Begin.Cups = k.Begin.Cups[:1] }, Broken{Promise: CupStands, Pot: 5}},
		{"a cup poured twice", func(_ *Task, p *Plan) { p.Pours[0].Pots[1] = p.Pours[0].Pots[0] }, Broken{Promise: CupStands, Pot: 4}},
		{"a cup of another age", func(_ *Task, p *Plan) { p.Pours[0].Pots[0].MixAt += 60 }, Broken{Promise: CupStands, Pot: 4}},
		{"a fresh pot from the past", func(_ *Task, p *Plan) { p.Pours[0].Pots[1].Seq = 0 }, Broken{Promise: MixersFree, Want: 3600}},
		{"a cup kept for later", func(_ *Task, p *Plan) {
			late := p.Pours[0]
			late.Stop, late.At, late.Winds, late.Pots = 1, p.End[0]+100, p.Start[1], late.Pots[1:2]
			p.Pours[0].Pots = []MixedPot{p.Pours[0].Pots[0], p.Pours[0].Pots[2]}
			p.Pours = append(p.Pours, late)
		}, Broken{Promise: CupStands, Unit: 1, Pot: 5}},
		{"a cup forgotten", func(k *Task, _ *Plan) { k.Begin.Cups = append(k.Begin.Cups, cup(k, 0.1, 100, 6)) }, Broken{Promise: WasteAgrees}},
		{"cups too old", func(k *Task, p *Plan) {
			for i := range k.Begin.Cups {
				k.Begin.Cups[i].MixAt -= 40_000
				p.Pours[0].Pots[i].MixAt -= 40_000
			}
		}, Broken{Promise: CupYoung}},
		{"a bath that is over", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.Over = vessel.Gel
				return h, err
			}
		}, Broken{Promise: BathAlive, Limit: vessel.Gel}},
		{"an empty bath", func(k *Task, _ *Plan) { k.Begin.Filled = false }, Broken{Promise: IntoFits}},
		{"a longer pause", func(k *Task, _ *Plan) { k.Begin.Pause = 3000 }, Broken{Promise: PauseKept}},
		{"a life that asks more", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.Life = quantity.Time(math.Inf(1))
				return h, err
			}
		}, Broken{Promise: ReserveStands, Want: 34560}},
		{"wound on instead", func(_ *Task, p *Plan) { p.Pours[0].Into = None }, Broken{Promise: IntoFits}},
		{"nothing said", func(_ *Task, p *Plan) { p.Pours = nil }, Broken{Promise: BeginSaid}},
		{"time turned back", func(_ *Task, p *Plan) {
			p.Pours[0].Pots, p.Pours[0].At = p.Pours[0].Pots[:2], 3000
		}, Broken{Promise: PoursInOrder}},
		{"a gelled layer unseen", func(k *Task, _ *Plan) {
			told := k.Heel
			k.Heel = func(m ensemble.Member) (Heel, error) {
				h, err := told(m)
				h.BaseGels = 3000
				return h, err
			}
		}, Broken{Promise: CountsAgree}},
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
