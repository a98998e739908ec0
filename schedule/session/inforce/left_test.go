package inforce

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// TestADayByThePlan: on a day that goes by the plan it holds at any moment, and what it pours
// next is what it planned, gram for gram, and no later.
func TestADayByThePlan(t *testing.T) {
	for name, w := range map[string]*schedule.Winding{
		"strut": daytest.Demo(t, "telescope-strut.yaml"), "shell": daytest.Demo(t, "softener-shell.yaml"), "circuits": circuits(t),
	} {
		t.Run(name, func(t *testing.T) {
			d := byPlan(t, w)
			kept := d.Events[0].Plan
			step := d.end() / float64(testrun.Count(11, 60))
			for m := 0.0; m < d.end(); m += step {
				r, rest := d.rest(t, m)
				if !r.Holds() {
					t.Fatalf("after %.1f min it does not hold: %+v, %+v", m, r.Chance, r.Breach)
				}
				next, _ := r.Plan.NextPour(len(rest.Task.Units))
				want := nextKept(kept, d.Clock(m))
				if (next == nil) != (want == nil) {
					t.Fatalf("after %.1f min next is %+v, the plan has %+v", m, next, want)
				}
				if next == nil {
					continue
				}
				// Its times are made anew from now, and a journal has whole seconds.
				if off := d.W.Job.Clock(next.At).Sub(want.At); off < -time.Second || off > time.Second || string(next.Into) != want.Into {
					got := d.W.Job.Clock(next.At)
					t.Errorf("after %.1f min %s at %v, the plan has %s at %v", m, next.Into, got, want.Into, want.At)
				}
				if a, b := fmt.Sprintf("%.3f", next.Mass().In("g")), fmt.Sprintf("%.3f", grams(sum(want))); a != b {
					t.Errorf("after %.1f min %s g, the plan has %s g", m, a, b)
				}
			}
		})
	}
}

func sum(p *session.PlanPour) (total quantity.Mass) {
	for i := range p.Pots {
		total += p.Pots[i].Mass()
	}
	return total
}

// nextKept is the pour of a plan that comes after a moment.
func nextKept(p *session.Plan, now time.Time) *session.PlanPour {
	for i := range p.Pours {
		if len(p.Pours[i].Pots) > 0 && p.Pours[i].At.After(now) {
			return &p.Pours[i]
		}
	}
	return nil
}

// TestWhatBreaksAPlan: a plan that can no longer be followed, or not within the limits, does not
// hold; what a crew does a little otherwise leaves it.
func TestWhatBreaksAPlan(t *testing.T) {
	w := prepared(t)
	for _, c := range []struct {
		name  string
		tell  func(d *daytest.Day, p *session.Plan) (at float64)
		holds bool
	}{
		{"nothing happened yet", func(*daytest.Day, *session.Plan) float64 { return 0 }, true},
		{"begun half an hour late", func(*daytest.Day, *session.Plan) float64 { return 30 }, true},
		{"a gram less", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p)-1)
			return 5
		}, true},
		{"half a pot", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p)/2)
			return 5
		}, false},
		{"more than the bath holds", func(d *daytest.Day, p *session.Plan) float64 {
			d.Mixed(0, 1000)
			return 5
		}, false},
		{"a reading past the limit", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p))
			d.Begin(6, 1)
			d.Temperature(20, 43)
			return 20
		}, false},
		{"readings of a faster resin", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p))
			d.Begin(6, 1)
			faster := ensemble.Member{Rate: 1.6, Viscosity: 1.2, Loss: 0.8, Weight: 1}
			for m := 10.0; m <= 40; m += 5 {
				world, err := day{d}.play(t, m).Script.World(faster)
				if err != nil {
					t.Fatal(err)
				}
				d.Temperature(m, world.Bath.Temperature.Celsius())
				d.Viscosity(m, float64(world.Viscosity()))
			}
			return 40
		}, false},
		{"the machine stood for an hour", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p))
			d.Begin(6, 1)
			d.Pause(7)
			d.Resume(70)
			return 70
		}, false},
		{"the bath was dumped", func(d *daytest.Day, p *session.Plan) float64 {
			d.Fill(0, first(p))
			d.Changed(8)
			return 8
		}, false},
		{"the pot stood for hours", func(d *daytest.Day, p *session.Plan) float64 {
			d.Mixed(0, first(p))
			return 200
		}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := day{daytest.New(w)}
			kept, err := Morning(w)
			if err != nil || kept == nil {
				t.Fatal(err)
			}
			d.Keeps(kept)
			r, _ := d.rest(t, c.tell(d.Day, kept))
			if r.Holds() != c.holds {
				t.Errorf("it holds: %v, %+v, %+v", r.Holds(), r.Chance, r.Breach)
			}
		})
	}
}

// first is what a plan pours first, in g.
func first(p *session.Plan) float64 {
	total := quantity.Mass(0)
	for i := range p.Pours[0].Pots {
		total += p.Pours[0].Pots[i].Mass()
	}
	return grams(total)
}

// TestAChangeIsMadeInSteps: while a crew makes the change that is planned, in whatever order it
// logs what it does, the plan holds.
func TestAChangeIsMadeInSteps(t *testing.T) {
	w := prepared(t)
	d := day{daytest.New(w)}
	d.Fill(0, 330)
	d.Begin(6, 1)
	d.Pause(12)
	p := d.play(t, 40)
	rest := p.Begun(nil)
	need := rest.Task.Bath.Lowest
	for _, u := range rest.Task.Units {
		need += u.Resin
	}
	half := batches.MixedPot{Pot: w.Record.Mix.Weigh(need/2/0.98, rest.Task.Pots.Step)} // 2 % stay in the cup
	plan := batches.Resume(rest.Task, []batches.Pour{{Into: batches.Change, Pots: []batches.MixedPot{half, half}}})
	solution, err := batches.Confirm(rest.Task, plan, rest.Task.Likely(), batches.Chance{})
	if err != nil {
		t.Fatal(err)
	}
	kept, err := Keep(rest, solution, session.Taken)
	if err != nil {
		t.Fatal(err)
	}
	d.Planned(40, kept)
	first, second := 0, 0
	steps := []func(){
		func() {},
		func() { d.Changed(41) },
		func() { first = d.Mixed(42, half.Mass().In("g")) },
		func() { second = d.Mixed(47, half.Mass().In("g")) },
		func() { d.Poured(54, first) },
		func() { d.Poured(55, second) },
		func() { d.Resume(56) },
	}
	for i, step := range steps {
		step()
		if r, _ := d.rest(t, max(40, d.Last())); !r.Holds() {
			t.Errorf("after step %d it does not hold: %+v, %+v", i, r.Chance, r.Breach)
		}
	}
}

// TestPlansOfAnotherHand: whatever a journal has in place of a plan, what is left of it is asked
// without a panic, and nothing impossible holds.
func TestPlansOfAnotherHand(t *testing.T) {
	w := prepared(t)
	d := day{daytest.New(w)}
	d.Fill(0, 330)
	d.Begin(6, 1)
	d.Mixed(7, 100)
	d.Keeps(&session.Plan{})
	if r, _ := d.rest(t, 8); r.Holds() && len(r.Plan.Pours) != 1 {
		t.Errorf("nothing planned, and it pours %+v", r.Plan.Pours)
	}
	rng := rand.New(rand.NewPCG(3, 5))
	for range testrun.Draws(100, 2000) {
		p := &session.Plan{}
		for range rng.IntN(4) {
			pour := session.PlanPour{
				Into: []string{"", "fill", "top-up", "change", "tip"}[rng.IntN(5)], Layer: rng.IntN(6) - 1, Circuits: rng.IntN(80) - 20,
				At: d.Clock(float64(rng.IntN(600) - 200)),
			}
			for range rng.IntN(3) {
				pour.Pots = append(pour.Pots, session.PlanPot{ResinG: float64(rng.IntN(900) - 100), HardenerG: float64(rng.IntN(200) - 50), Pot: rng.IntN(9) - 1})
			}
			p.Pours = append(p.Pours, pour)
		}
		d.Keeps(p)
		r, _ := d.rest(t, 8)
		if r.Holds() && r.Plan.Pours[0].Stop != 0 {
			t.Errorf("it holds: %+v", p)
		}
	}
}
