package batches

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestFeasibleMeansEnoughMembers: whatever Solve calls feasible is kept by 90 %
// of an ensemble, and confirmed by the referee; what it does not has a reason.
func TestFeasibleMeansEnoughMembers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	worse, feasible := 0, 0
	for range 60 {
		task := randomTask(r)
		s, err := Solve(task)
		if err != nil {
			t.Fatal(err)
		}
		if !s.Feasible() {
			if s.Breach == nil {
				t.Fatal("no plan and no reason")
			}
			continue
		}
		feasible++
		if s.Chance.KeepsAll < EnoughMembers || s.Chance.KeepsLimits < s.Chance.KeepsAll || len(s.Tally.Broken) > 0 {
			t.Errorf("called feasible: %+v, %v", s.Chance, s.Tally.Broken)
		}
		if s.Plan.Member != sureOf(t, task, firstRung) {
			worse++
		}
	}
	if feasible < 10 {
		t.Errorf("only %d feasible jobs", feasible)
	}
	t.Logf("%d feasible, %d of them on a worse bath than the first", feasible, worse)
}

// TestJudgeAgainstOneByOne: the shares are those of members followed one by one
// on a fresh crew each, by the strict referee: a plan kept by a member has no
// broken promise there but those that only score it.
func TestJudgeAgainstOneByOne(t *testing.T) {
	task := bench(1, 40, 200)
	task.Resin = medium(1.9)
	task.Spread.Time = 1.6
	plan, _, breach, err := newSearcher(task).confirmed(task.Likely())
	if err != nil || plan == nil {
		t.Fatal(breach, err)
	}
	members := ensemble.Draw(task.Spread, 60, 5)
	chance, _, err := Judge(task, plan, members)
	if err != nil {
		t.Fatal(err)
	}
	kept := 0
	for _, m := range members {
		one := *plan
		one.Member = m
		tally, err := Referee(task, &one)
		if err != nil {
			t.Fatal(err)
		}
		if tally.Score.Spare >= 0 && within(tally) {
			kept++
		}
	}
	// One member may sit within the tolerances of both.
	if d := math.Abs(chance.KeepsAll*60 - float64(kept)); !(d <= 1) {
		t.Errorf("judged %.0f of 60, one by one %d", chance.KeepsAll*60, kept)
	}
	if kept == 0 || kept == 60 {
		t.Errorf("%d of 60 keep the plan: the case tests nothing", kept)
	}
}

// TestJudgeWithoutHelper: the wait for a pot that is mixed while the machine
// stands, or whose mixing outlasts a layer, counts, and no more than it is: a
// certain bath keeps the plan that was made for it.
func TestJudgeWithoutHelper(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	topped := 0
	for range 300 {
		task := randomTask(r)
		if task.Pots.Helper = r.IntN(2) == 0; task.Pots.Helper {
			task.Pots.Mixing = 1500
		}
		plan, _, _, err := newSearcher(task).confirmed(ensemble.Nominal())
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			continue
		}
		if len(plan.Pours) > 1+plan.Score.Changes {
			topped++
		}
		chance, breach, err := Judge(task, plan, []ensemble.Member{ensemble.Nominal()})
		if err != nil || chance.KeepsAll != 1 {
			t.Errorf("judged %+v, %+v, %v", chance, breach, err)
		}
	}
	if topped < 10 {
		t.Errorf("only %d plans with top-ups", topped)
	}
}

// TestChanceIsCounted: nine in ten is nine in ten, not a sum of tenths.
func TestChanceIsCounted(t *testing.T) {
	task := bench(1, 20, 60)
	plan, _, _, err := newSearcher(task).confirmed(ensemble.Nominal())
	if err != nil || plan == nil {
		t.Fatal(err)
	}
	hopeless := ensemble.Member{Rate: 50, Viscosity: 1, Loss: 1, Weight: 1}
	members := []ensemble.Member{hopeless}
	for range 9 {
		members = append(members, ensemble.Nominal())
	}
	chance, breach, err := Judge(task, plan, members)
	if err != nil || breach == nil || chance.KeepsAll != EnoughMembers {
		t.Errorf("%+v, %+v, %v; want exactly %g", chance, breach, err, EnoughMembers)
	}
}

// within tells whether no limit was passed: a limit passed leaves no life.
func within(tally *Tally) bool {
	for _, p := range tally.Pours {
		if p.Least <= 0 {
			return false
		}
	}
	return true
}

// TestHelpsAreSolvedAnew: the gain told is that of solving the variant, and what
// loses is not told.
func TestHelpsAreSolvedAnew(t *testing.T) {
	task := strut(5)
	s, err := Solve(task)
	if err != nil || !s.Feasible() {
		t.Fatal(s, err)
	}
	slow, fast := *task, *task
	slow.Resin = task.Resin.Adjusted(0.5, 1)
	fast.Resin = task.Resin.Adjusted(1.1, 1)
	half := Remedy{Kind: HardenerRate, Times: 0.5}
	helps, err := Helps(task, s, []Variant{{What: half, Task: &slow}, {What: Remedy{Kind: HardenerRate, Times: 1.1}, Task: &fast}, {What: Remedy{Kind: StopsInside}, Task: &slow, LastResort: true}})
	if err != nil {
		t.Fatal(err)
	}
	if len(helps) != 1 || helps[0].What != half || helps[0].Part {
		t.Fatalf("helps: %+v", helps)
	}
	alone, _, err := newSearcher(&slow).best(s.Plan.Member, 0)
	if err != nil || alone == nil {
		t.Fatal(err)
	}
	base, _, err := newSearcher(task).best(s.Plan.Member, 0)
	if err != nil || base == nil {
		t.Fatal(err)
	}
	if want := alone.score.Spare - base.score.Spare; helps[0].Gain != want {
		t.Errorf("gain %v, solved anew %v", helps[0].Gain, want)
	}
}

// TestBreachNamesTheLayer: where no plan exists, the breach is that of the layer
// that no plan gets past.
func TestBreachNamesTheLayer(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*Task)
		unit  int
		why   Reason
		limit vessel.Limit
	}{
		{"a layer larger than the bath", func(k *Task) { k.Units[2].Resin = 0.9 }, 2, ByHighest, ""},
		{"a layer longer than any life", func(k *Task) { k.Units[3].Time = 30 * 3600 }, 3, ByLimit, vessel.BathViscosity},
		{"a reserve longer than any life", func(k *Task) { k.Reserve = 40 * 3600 }, 0, ByReserve, vessel.BathViscosity},
		{"resin too thick to start", func(k *Task) { k.Resin = k.Resin.Adjusted(1, 5) }, 0, ByLimit, vessel.LaidViscosity},
		{"a limit below the room", func(k *Task) { k.Limits.BathTemperature = quantity.Celsius(20) }, 0, ByLimit, vessel.BathTemperature},
	} {
		task := bench(5, 20, 60)
		c.spoil(task)
		s, err := Solve(task)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if s.Feasible() || s.Breach == nil {
			t.Errorf("%s: called feasible", c.name)
			continue
		}
		if b := s.Breach; b.Unit != c.unit || b.Why != c.why || b.Limit != c.limit {
			t.Errorf("%s: unit %d, %s, %q; want %d, %s, %q", c.name, b.Unit, b.Why, b.Limit, c.unit, c.why, c.limit)
		}
	}
}

// TestLongWindingsEnd: a thousand layers, and layers of which a bath holds
// twenty, are planned with bounded work, and the plans are sound.
func TestLongWindingsEnd(t *testing.T) {
	for name, task := range map[string]*Task{"long": strut(400), "short layers": bench(300, 4.5, 30)} {
		s, err := Solve(task)
		if err != nil {
			t.Fatal(err)
		}
		if s.Plan == nil || len(s.Tally.Broken) > 0 {
			t.Errorf("%s: %+v", name, s.Breach)
		}
	}
}
