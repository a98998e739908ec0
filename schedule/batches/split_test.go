package batches

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// drawTask is a task with any mix, scale and pots that a job may have: the smallest pot is
// one that the scale can mix within the tolerance.
func drawTask(t *rapid.T) (task *Task, tolerance float64) {
	mix := resins.Mix{
		Resin:    resins.Part{ByMass: 100, Density: 1130},
		Hardener: resins.Part{ByMass: rapid.Float64Range(5, 150).Draw(t, "hardener"), Density: quantity.Density(rapid.Float64Range(850, 1300).Draw(t, "density"))},
	}
	tolerance = rapid.Float64Range(0.005, 0.1).Draw(t, "tolerance")
	step := rapid.SampledFrom([]quantity.Mass{1e-5, 1e-4, 5e-4, 1e-3, 5e-3}).Draw(t, "step")
	smallest := mix.SmallestPot(step, quantity.Fraction(tolerance)) * quantity.Mass(rapid.Float64Range(1, 1.5).Draw(t, "smallest"))
	least := mix.Weigh(smallest, step).Mass()
	return &Task{Mix: mix, Pots: Pots{
		Step: step, Smallest: smallest, Largest: least * quantity.Mass(rapid.Float64Range(1, 6).Draw(t, "largest")),
		LeftInCup: rapid.Float64Range(0, 0.1).Draw(t, "left in cup"),
	}}, tolerance
}

// TestSplitIsWhole: whatever is to be mixed is split into pots that are together what was
// asked and no more than rounding to the scale adds; each is in whole steps, within its
// bounds, and keeps the ratio within the tolerance; and one pot less would not do.
func TestSplitIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		task, tolerance := drawTask(t)
		p := task.Pots
		asked := float64(p.Largest) * rapid.Float64Range(0, 8).Draw(t, "pots")
		pots := task.split(asked)
		sum, steps := 0.0, 0.0
		for _, pot := range pots {
			for _, part := range []quantity.Mass{pot.Resin, pot.Hardener} {
				n := float64(part / p.Step)
				if !(math.Abs(n-math.Round(n)) <= 1e-9*n) || !(n >= 1) { // sums of decimal steps
					t.Errorf("a part of %v is not in steps of %v", part, p.Step)
				}
				steps += math.Round(n)
			}
			if !(pot.Mass() >= p.Smallest*(1-1e-12) && pot.Mass() <= p.Largest*(1+1e-9)) { // what rounding leaves
				t.Errorf("a pot of %v, of %v to %v", pot.Mass(), p.Smallest, p.Largest)
			}
			if off := math.Abs(task.Mix.RatioError(pot)); !(off <= tolerance*(1+1e-6)) { // a step of the bound itself
				t.Errorf("a pot of %v is off the ratio by %.3g, tolerated %.3g", pot.Mass(), off, tolerance)
			}
			sum += float64(pot.Mass())
		}
		n := float64(len(pots))
		if whole := steps * float64(p.Step); !(math.Abs(whole-sum) <= 1e-9*sum) { // exactly, but for sums of floats
			t.Errorf("the pots are %g kg, their steps %g kg", sum, whole)
		}
		need := math.Max(asked, n*float64(p.Smallest))
		// A pot is rounded up by two steps of resin at most, with their hardener and half a
		// step (TestWeigh of package resins).
		most := n * float64(p.Step) * (2*(1+task.Mix.HardenerByMass()/100) + 0.5)
		if over := sum - need; !(over >= -1e-9*need && over <= most*(1+1e-6)) {
			t.Errorf("%g kg asked, %g kg in %d pots; rounding explains %g kg", need, sum, len(pots), most)
		}
		if fewer := n - 1; fewer >= 1 {
			if pot := task.Mix.Weigh(quantity.Mass(asked/fewer), p.Step).Mass(); asked/fewer <= float64(p.Largest) && pot <= p.Largest {
				t.Errorf("%g kg in %d pots of %v, where %g of %v would do", asked, len(pots), pots[0].Mass(), fewer, pot)
			}
		}
	})
}
