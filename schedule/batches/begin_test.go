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

// randomBeginning sets a task in the middle of a day: the first layer perhaps
// half wound, the bath filled or not, with resin that may be too old, films that
// gel soon or never, and up to two cups.
func randomBeginning(r *rand.Rand, t *Task) *Task {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	t.Begin = Beginning{At: quantity.Time(between(-3000, 12_000)), Filled: r.IntN(5) > 0}
	if r.IntN(2) == 0 {
		t.Begin.Pause = t.Pause * quantity.Time(r.Float64())
	}
	if r.IntN(2) == 0 {
		share := between(0.1, 0.9)
		t.Units[0].Time *= quantity.Time(share)
		t.Units[0].Resin *= quantity.Mass(share)
		t.Units[0].FibreWeight *= quantity.Mass(share)
	}
	for seq := 1; seq <= r.IntN(3); seq++ {
		mass := quantity.Mass(between(float64(t.Pots.Smallest), float64(t.Pots.Largest)))
		age := quantity.Time(between(0, 2400))
		t.Begin.Cups = append(t.Begin.Cups, MixedPot{MixAt: t.Begin.At - age, Pot: t.Mix.Weigh(mass, t.Pots.Step), Seq: seq})
	}
	age := between(0, 9000)
	mass := t.Bath.Lowest*0.9 + (t.Bath.Highest-t.Bath.Lowest*0.9)*quantity.Mass(r.Float64())
	film := age
	if r.IntN(2) == 0 {
		film = math.NaN()
	}
	return withHeel(t, mass, age, film)
}

// withHeel fills the bath age seconds before the plan begins, with resin just
// mixed; the layer below was laid film seconds before it.
func withHeel(t *Task, mass quantity.Mass, age, film float64) *Task {
	plain := *t
	plain.Begin, plain.Heel = Beginning{}, nil
	t.Heel = func(m ensemble.Member) (Heel, error) {
		c := newCrew(&plain, m)
		from := float64(t.Begin.At) - age
		fresh := vessel.State{Mass: mass, Temperature: plain.mixedAt(from, 0)}
		h := Heel{LaidGels: quantity.Time(math.Inf(1)), BaseGels: quantity.Time(math.Inf(1))}
		life, by, err := c.life(fresh, from, lifeHorizon)
		if err != nil {
			return h, err
		}
		if h.Life = quantity.Time(life); life <= age {
			h.Over = by
		}
		if h.State, err = c.bath.Advance(fresh, quantity.Time(from), t.Begin.At, vessel.Tow{}); err != nil || math.IsNaN(film) {
			return h, err
		}
		h.BaseGels, err = vessel.NewFilm(*c.bath.Resin(), t.Limits.Mandrel).GelAt(0, t.Begin.At-quantity.Time(film))
		return h, err
	}
	return t
}

// kinds counts what the best plans from random beginnings do first, so that a
// generator that never makes the hard cases is seen.
type kinds map[string]int

func (k kinds) add(t *Task, plan *Plan) {
	first := plan.Pours[0]
	if k["begins with "+string(first.Into)]++; first.Into == None && len(plan.Pours) == 1 {
		k["no pour"]++
	}
	used := 0
	for _, pour := range plan.Pours {
		used += len(pour.Pots) - toBeMixed(pour.Pots)
	}
	switch n := len(t.Begin.Cups); {
	case n > 0 && used == 0:
		k["cups thrown away"]++
	case n > 0 && used < n:
		k["some cups used"]++
	case n > 0:
		k["all cups used"]++
	}
	if plan.Score.Gelled > 0 {
		k["on gelled"]++
	}
}

func (k kinds) check(t *testing.T, least int) {
	t.Helper()
	for _, kind := range []string{
		"begins with ", "begins with fill", "begins with top-up", "begins with change", "no pour",
		"cups thrown away", "some cups used", "all cups used", "on gelled",
	} {
		if k[kind] < least {
			t.Errorf("%d random beginnings of the kind %q, want %d: %v", k[kind], kind, least, k)
		}
	}
}

// TestSearchEqualsExhaustiveSearchFromAnywhere: as TestSearchEqualsExhaustiveSearch,
// for plans that begin in the middle of a day.
func TestSearchEqualsExhaustiveSearchFromAnywhere(t *testing.T) {
	r := rand.New(rand.NewPCG(20261126, 2))
	wanted, least := testrun.Count(60, 400), testrun.Count(0, 4)
	seen, none := kinds{}, 0
	for job, feasible := 0, 0; feasible < wanted; job++ {
		if job > 20*wanted {
			t.Fatalf("only %d of %d random jobs have a plan: the generator is off", feasible, job)
		}
		task := randomBeginning(r, randomTask(r))
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
			if none++; breach == nil {
				t.Fatalf("job %d: no plan and no reason", job)
			}
			continue
		}
		feasible++
		a, b := found.score, best.score
		if a.Changes != b.Changes || a.Gelled != b.Gelled || a.Pots != b.Pots {
			t.Errorf("job %d: search %+v, whole family %+v", job, a, b)
		}
		// A step of the scale a pot, as from an empty bath; one at least.
		step := float64(task.Pots.Step) * math.Max(1, float64(b.Pots))
		if !(math.Abs(float64(a.Waste-b.Waste)) <= step) {
			t.Errorf("job %d: waste %v, whole family %v, one step a pot is %g kg", job, a.Waste, b.Waste, step)
		}
		seen.add(task, found.plan(task, sure))
	}
	t.Logf("%d without a plan; %v", none, seen)
	seen.check(t, least)
}

// TestRandomRestsPassTheReferee: every plan that the search makes from hundreds
// of random beginnings holds in the independent simulation, and a certain bath
// keeps it.
func TestRandomRestsPassTheReferee(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	wanted, least := testrun.Count(80, 800), testrun.Count(0, 8)
	seen := kinds{}
	for plans, job := 0, 0; plans < wanted; job++ {
		if job > 40*wanted {
			t.Fatalf("only %d of %d random jobs have a plan", plans, job)
		}
		task := randomBeginning(r, randomTask(r))
		sure := sureOf(t, task, firstRung)
		plan, tally, breach, err := newSearcher(task).confirmed(sure)
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			if breach == nil {
				t.Fatal("no plan and no reason")
			}
			continue
		}
		plans++
		if end := float64(plan.End[len(plan.End)-1]); end > task.latest() {
			t.Errorf("job %d ends at %g s, after the latest of all, %g s", job, end, task.latest())
		}
		for _, broken := range tally.Broken {
			t.Errorf("job %d: %+v", job, broken)
		}
		chance, kept, err := Judge(task, plan, []ensemble.Member{sure})
		if err != nil || chance.KeepsAll != 1 {
			t.Errorf("job %d: the bath that it was made for breaks it: %+v, %v", job, kept, err)
		}
		seen.add(task, plan)
	}
	t.Log(seen)
	seen.check(t, least)
}
