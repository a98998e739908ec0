package advice

import (
	"math"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/testrun"
	"potlife/schedule/session/daytest"
)

// TestMoreReserveActsNoLater: on random days, the same but for the reserve of their job, more
// reserve never says to carry on where less does not, and never gives more time to act, but for
// how well the latest moment is known. One exception is meant: a layer that more reserve leaves
// in hand to be finished on it has all that is surely left, since the reserve is there to be spent
// then (table.go), where less reserve says when the next layer stops fitting.
func TestMoreReserveActsNoLater(t *testing.T) {
	days := testrun.Count(40, 120)
	little, much := prepared(t), prepared(t, "reserve: 10 min", "reserve: 25 min")
	r := rand.New(rand.NewPCG(3, 19))
	compared, sooner, onReserve := 0, 0, 0
	for n := range days {
		far := []float64{2, 6, 20}[r.IntN(3)]
		d := newDay(little)
		d.Fill(r.Float64()*far, 120*math.Exp(0.8*r.Float64())) // most that cannot run away: a hazard has its own time
		for range 4 + r.IntN(12) {
			d.random(r.IntN, far)
		}
		last := d.Last()
		a, err := d.answered(last, 0)
		if err != nil {
			t.Fatal(err)
		}
		same := day{&daytest.Day{W: much, Events: d.Events}}
		b, err := same.answered(last, 0)
		if err != nil {
			t.Fatal(err)
		}
		if b.MachineAdvice == CarryOn && a.MachineAdvice != CarryOn {
			t.Errorf("day %d: with 25 min %s, with 10 min %s\n%s", n, b.say(), a.say(), told(d.Events))
		}
		if math.IsNaN(float64(a.ActBefore)) || math.IsNaN(float64(b.ActBefore)) || len(a.Hazards) > 0 {
			continue
		}
		if b.MachineRule == OnReserve && a.MachineRule != OnReserve {
			onReserve++
			continue
		}
		if byPlan := func(r Rule) bool { return r == ByPlan || r == NewPlan }; byPlan(a.MachineRule) || byPlan(b.MachineRule) {
			continue // with another reserve it is another plan
		}
		if oldOut := b.MachineRule == ChangeFits || b.MachineRule == NothingFits; oldOut && a.MachineRule != b.MachineRule {
			continue // its deadline is when the old resin must be out, not when to go on
		}
		compared++
		if !(b.ActBefore <= a.ActBefore+closeEnough) {
			t.Errorf("day %d: with 25 min %s, with 10 min %s\n%s", n, b.say(), a.say(), told(d.Events))
		}
		if b.ActBefore < a.ActBefore-closeEnough {
			sooner++
		}
	}
	t.Logf("%d of %d days compared, %d act sooner with more reserve; %d finish on it", compared, days, sooner, onReserve)
	if compared < days/5 || sooner == 0 {
		t.Error("the random days test nothing")
	}
}
