package batches

import (
	"math"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// begun is a bench an hour into its day, with a bath of so many kilograms mixed
// so many seconds ago.
func begun(layers int, minutes, grams float64, mass quantity.Mass, age float64) *Task {
	t := bench(layers, minutes, grams)
	t.Begin = Beginning{At: 3600, Filled: true}
	return withHeel(t, mass, age, math.NaN())
}

// cup is a pot that was mixed so many seconds before the task begins.
func cup(t *Task, mass quantity.Mass, age quantity.Time, seq int) MixedPot {
	return MixedPot{MixAt: t.Begin.At - age, Pot: t.Mix.Weigh(mass, t.Pots.Step), Seq: seq}
}

// plans returns the best plan for the nominal bath, confirmed by the referee.
func plans(t *testing.T, task *Task) *Plan {
	t.Helper()
	plan, tally, breach, err := newSearcher(task).confirmed(ensemble.Nominal())
	if err != nil || plan == nil {
		t.Fatalf("no plan: %+v, %v", breach, err)
	}
	for _, broken := range tally.Broken {
		t.Error(broken)
	}
	if len(tally.Pours) != len(plan.Pours) || len(tally.Units) != len(task.Units) {
		t.Errorf("%d pours and %d units are tallied of %d and %d", len(tally.Pours), len(tally.Units), len(plan.Pours), len(task.Units))
	}
	return plan
}

// TestNoPourNeeded: what is in the bath lasts to the end, and the plan is to
// wind on, at once or when the pause is over.
func TestNoPourNeeded(t *testing.T) {
	for _, pause := range []quantity.Time{0, 120} {
		task := begun(2, 15, 60, 0.3, 900)
		task.Begin.Pause = pause
		plan := plans(t, task)
		if len(plan.Pours) != 1 || plan.Pours[0].Into != None || len(plan.Pours[0].Pots) != 0 || plan.Pours[0].At != 3600 {
			t.Errorf("pours %+v, want none", plan.Pours)
		}
		if plan.Start[0] != 3600+pause || plan.End[0] != 3600+pause+900 || plan.Start[1] != plan.End[0]+180 {
			t.Errorf("winds from %v to %v", plan.Start, plan.End)
		}
		// 300 g less twice 60 g stay in the bath.
		if s := plan.Score; s.Pots != 0 || s.Changes != 0 || !(math.Abs(float64(s.Waste)-0.18) <= 1e-9) {
			t.Errorf("score %+v", s)
		}
		if s, err := Solve(task); err != nil || !s.Feasible() || s.Plan.Score.Pots != 0 {
			t.Errorf("solved: %+v, %v", s.Breach, err)
		}
	}
}

// TestHeelIsOver: from a bath whose life is over nothing is wound and nothing
// poured onto: it is changed, before the first unit.
func TestHeelIsOver(t *testing.T) {
	task := begun(2, 15, 60, 0.3, 900)
	told := task.Heel
	task.Heel = func(m ensemble.Member) (Heel, error) {
		h, err := told(m)
		h.Over = vessel.BathTemperature
		return h, err
	}
	plan := plans(t, task)
	first := plan.Pours[0]
	if first.Into != Change || first.Stop != 0 || plan.Score.Changes != 1 {
		t.Fatalf("begins with %+v", first)
	}
	// One pot needs 5 min, wiping 15: it is poured in the last of those, and
	// mixed just before.
	if first.At != 3600+900-60 || first.Winds != 3600+900 || first.Pots[0].MixAt != first.At-300 || plan.Start[0] != first.Winds {
		t.Errorf("changed by %+v, wound from %v", first, plan.Start)
	}
	// The heel is dumped, the lowest stays in the bath, the rest is in the cup.
	waste := 0.3 + 0.12 + 0.02*float64(first.Mass())
	// Weighing rounds up by a step or two.
	if d := float64(plan.Score.Waste) - waste; !(d >= -1e-9 && d <= 2*float64(task.Pots.Step)) {
		t.Errorf("waste %v, want %g kg", plan.Score.Waste, waste)
	}
	s := newSearch(task, ensemble.Nominal(), 0)
	start, err := s.crew.begin()
	if err != nil {
		t.Fatal(err)
	}
	for _, into := range []Into{None, TopUp} {
		_, breach, err := s.crew.travel(start, into, 1)
		if err != nil || breach == nil || breach.Why != ByLimit || breach.Limit != vessel.BathTemperature || breach.Unit != 0 || breach.At != 3600 {
			t.Errorf("%q: %+v, %v", into, breach, err)
		}
	}
	// A member whose bath is over does not keep a plan that winds on.
	sound := plans(t, begun(2, 15, 60, 0.3, 900))
	if chance, breach, err := Judge(task, sound, []ensemble.Member{ensemble.Nominal()}); err != nil || chance.KeepsLimits != 0 || breach.Limit != vessel.BathTemperature {
		t.Errorf("judged %+v, %+v, %v", chance, breach, err)
	}
}

// TestHeelTooOldToTopUp: a heel beyond its share of gel that does not last is
// changed; a younger one is topped up. The viscosity limits are out of the way.
func TestHeelTooOldToTopUp(t *testing.T) {
	for _, c := range []struct {
		age  float64
		into Into
	}{{1200, TopUp}, {5 * 3600, Change}} {
		task := begun(2, 15, 60, 0.14, c.age)
		task.Limits.BathViscosity, task.Limits.LaidViscosity = 1e9, 1e9
		task = withHeel(task, 0.14, c.age, math.NaN())
		h, err := task.Heel(ensemble.Nominal())
		if err != nil || h.Over != vessel.NoLimit {
			t.Fatalf("over by %s, %v", h.Over, err)
		}
		if old := h.State.Alpha > HeelLimit*task.Resin.Gel; old != (c.into == Change) {
			t.Fatalf("α %.3f of a heel of %g s: the case tests nothing", h.State.Alpha, c.age)
		}
		task.Units[0].Resin = 0.1 // more than there is: winding on first is no way
		crew := newCrew(task, ensemble.Nominal())
		start, err := crew.begin()
		if err != nil {
			t.Fatal(err)
		}
		if _, breach, err := crew.travel(start, TopUp, 2); err != nil || (breach != nil) != (c.into == Change) || breach != nil && breach.Why != ByHeel {
			t.Errorf("a heel of %g s topped up: %+v, %v", c.age, breach, err)
		}
		if plan := plans(t, task); plan.Pours[0].Into != c.into {
			t.Errorf("a heel of %g s begins with %q, want %q", c.age, plan.Pours[0].Into, c.into)
		}
	}
}

// TestStandingCups: cups that stand are poured first, the oldest first and no
// more than needed, unless they are too old.
func TestStandingCups(t *testing.T) {
	for _, c := range []struct {
		name   string
		cups   func(*Task) []MixedPot
		used   string
		fresh  int
		thrown float64 // kg
	}{
		{"one is enough", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.2, 300, 1)} }, "1", 0, 0},
		{"the older first", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.2, 300, 1), cup(k, 0.2, 400, 2)} }, "2", 0, 0.2},
		{"both", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.08, 400, 1), cup(k, 0.12, 300, 2)} }, "12", 0, 0},
		{"and a fresh one", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.1, 400, 1)} }, "1", 1, 0},
		{"one as old as yesterday", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.2, 86400, 1)} }, "", 1, 0.2},
		{"the one that fits", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.62, 400, 1), cup(k, 0.15, 300, 2)} }, "2", 0, 0.62},
		{"one that does not fit", func(k *Task) []MixedPot { return []MixedPot{cup(k, 0.62, 300, 1)} }, "", 1, 0.62},
	} {
		task := begun(1, 30, 120, 0.13, 600)
		task.Begin.Cups = c.cups(task)
		plan := plans(t, task)
		first := plan.Pours[0]
		used, left := "", 0.0
		for _, pot := range first.Pots {
			if pot.Seq > 0 {
				used += string(rune('0' + pot.Seq))
			}
			left += 0.02 * float64(pot.Mass())
		}
		if used != c.used || toBeMixed(first.Pots) != c.fresh || plan.Score.Pots != c.fresh {
			t.Errorf("%s: poured cups %q and %d fresh, score %+v", c.name, used, toBeMixed(first.Pots), plan.Score)
		}
		bath := 0.13 + float64(first.Mass()) - left - 0.12
		if d := float64(plan.Score.Waste) - (bath + left + c.thrown); len(plan.Pours) != 1 || !(math.Abs(d) <= 2*float64(task.Pots.Step)) {
			t.Errorf("%s: %d pours, waste off by %g kg", c.name, len(plan.Pours), d)
		}
		// Only fresh pots take time to mix.
		if want := 3600 + quantity.Time(300*c.fresh); first.At != want {
			t.Errorf("%s: poured at %v, want %v", c.name, first.At, want)
		}
	}
}

// TestCupTooOldToPour: a cup beyond its share of gel is not poured, even where a
// clean bath would thin it enough.
func TestCupTooOldToPour(t *testing.T) {
	task := begun(2, 15, 60, 0.13, 600)
	task.Begin.Cups = []MixedPot{cup(task, 0.2, 86400, 1)}
	s := newSearch(task, ensemble.Nominal(), 0)
	start, err := s.crew.begin()
	if err != nil {
		t.Fatal(err)
	}
	if _, breach, err := s.crew.travel(start, Change, 2); err != nil || breach == nil || breach.Why != ByHeel {
		t.Errorf("%+v, %v", breach, err)
	}
}

// TestStandingCupsTellPositionsApart: of two positions alike but for cups that
// still stand, neither covers the other, and legs from one are not the other's.
func TestStandingCupsTellPositionsApart(t *testing.T) {
	task := begun(2, 15, 60, 0.3, 900)
	task.Begin.Cups = []MixedPot{cup(task, 0.1, 300, 1)}
	s := newSearch(task, ensemble.Nominal(), 0)
	start, err := s.crew.begin()
	if err != nil {
		t.Fatal(err)
	}
	without := *start
	without.standing = false
	if s.covers(start, &without) || s.covers(&without, start) || !s.covers(start, start) {
		t.Error("cups that stand are forgotten")
	}
	later := *start
	later.clock++
	if key := s.freshKey(start, 1); key == s.freshKey(&without, 1) || key == s.freshKey(&later, 1) {
		t.Error("a leg with cups is shared with one without, or with cups of another age")
	}
}

// TestNothingFits: where even a clean bath is not enough, the breach is that of
// the clean bath.
func TestNothingFits(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*Task)
		unit  int
		why   Reason
	}{
		{"a rest larger than the bath", func(k *Task) { k.Units[0].Resin = 0.9 }, 0, ByHighest},
		{"a layer longer than any life", func(k *Task) { k.Units[1].Time = 30 * 3600 }, 1, ByLimit},
		{"a reserve longer than any life", func(k *Task) { k.Reserve = 40 * 3600 }, 0, ByReserve},
	} {
		task := begun(3, 15, 60, 0.69, 600)
		c.spoil(task)
		s, err := Solve(task)
		if err != nil {
			t.Fatal(err)
		}
		if b := s.Breach; s.Feasible() || b == nil || b.Unit != c.unit || b.Why != c.why {
			t.Errorf("%s: %+v, want unit %d, %s", c.name, b, c.unit, c.why)
		}
	}
}

// TestHeelMustBeTold: a filled bath that nobody describes is an error.
func TestHeelMustBeTold(t *testing.T) {
	task := bench(2, 15, 60)
	task.Begin.Filled = true
	if _, err := Solve(task); err == nil || !strings.Contains(err.Error(), "Heel") {
		t.Errorf("got %v", err)
	}
}

// TestDrawnMembersJudge: the ensemble that is given judges, and what is known of it
// makes the sure bath, whatever the spread.
func TestDrawnMembersJudge(t *testing.T) {
	task := bench(2, 20, 60)
	task.Resin = task.Resin.Adjusted(0.5, 1)
	is := ensemble.Nominal()
	certain := ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}.Belief()
	task.Drawn = []ensemble.Member{is, is, is, is, is, is, is, is, is, {Rate: 120, Viscosity: 1, Loss: 1, Weight: 1}}
	task.Known = &certain
	s, err := Solve(task)
	if err != nil || !s.Feasible() || s.Plan.Member != is || s.Chance.KeepsAll != 0.9 {
		t.Errorf("%+v, %v", s, err)
	}
	if task.Likely() != is || len(task.Sample(5)) != 5 || len(task.Sample(50)) != 10 {
		t.Error("samples are not those drawn")
	}
}

// TestCourseBegins: the bath is that told when the plan begins, and nothing is
// said of the time before.
func TestCourseBegins(t *testing.T) {
	task := begun(2, 15, 60, 0.3, 900)
	plan := plans(t, task)
	h, err := task.Heel(ensemble.Nominal())
	if err != nil {
		t.Fatal(err)
	}
	states, err := Course(task, plan, ensemble.Nominal(), []quantity.Time{0, 3599, 3600, plan.End[0], plan.End[1]})
	if err != nil {
		t.Fatal(err)
	}
	if states[0].Mass != 0 || states[1].Mass != 0 || states[2] != h.State {
		t.Errorf("%+v, heel %+v", states, h.State)
	}
	for i, want := range []float64{0.24, 0.18} {
		if got := float64(states[3+i].Mass); !(math.Abs(got-want) <= 1e-9) {
			t.Errorf("after layer %d the bath holds %g kg, want %g", i, got, want)
		}
	}
}

// TestPartsDropTheBeginning: a part of a winding that does not hold its first
// unit begins with an empty bath, one that does with what is there.
func TestPartsDropTheBeginning(t *testing.T) {
	task := begun(80, 15, 60, 0.3, 900)
	task.Begin.Cups = []MixedPot{cup(task, 0.1, 300, 1)}
	for i := range task.Units {
		task.Units[i].Layer += 7
	}
	whole := wholeOf(task)
	first, later := around(7, whole).of(task), around(60, whole).of(task)
	if !first.Begin.Filled || first.Heel == nil || len(first.Begin.Cups) != 1 || first.Units[0].Layer != 7 || len(first.Units) != longWinding {
		t.Errorf("the first part begins with %+v at layer %d", first.Begin, first.Units[0].Layer)
	}
	if later.Begin.Filled || later.Heel != nil || later.Begin.Cups != nil || later.Begin.At != 3600 || len(later.Units) != longWinding {
		t.Errorf("a later part begins with %+v", later.Begin)
	}
	if whole.of(task) != task {
		t.Error("the whole is cut")
	}
}

// TestCoarseStopsOfHeel: however coarse the grain, a plan can first pour after
// the first unit, and where the resin in the bath is spent.
func TestCoarseStopsOfHeel(t *testing.T) {
	task := begun(100, 2, 10, 0.27, 900)
	task.Resin = medium(0.2)
	s := newSearch(task, ensemble.Nominal(), 0)
	s.grain = grains[len(grains)-1]
	if err := s.chooseStops(); err != nil {
		t.Fatal(err)
	}
	// 270 g less the lowest 120 are fifteen layers of 10 g.
	if s.nextStop(0) != 1 || s.nextStop(1) != 9 || s.nextStop(9) != 15 || s.nextStop(15) != 18 {
		t.Errorf("stops %v", s.stops)
	}
	if plan := plans(t, begun(400, 4.5, 30, 0.3, 900)); !plan.Coarse {
		t.Error("a long winding is not planned coarsely: the case tests nothing")
	}
}
