package cure

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/schedule"
)

// anyPart is a part as a crew could wind it, of any built-in system, thickness, mandrel and oven.
func anyPart(t *testing.T, draw *rand.Rand) (*Task, string) {
	systems := []string{"epoxy-teta", "epoxy-ipda", "epoxy-polyetheramine-ipda", "epoxy-polyetheramine", "epoxy-mthpa", "epoxy-mpda"}
	system := systems[draw.IntN(len(systems))]
	layers := 1 + draw.IntN(60)
	between := func(a, b float64) float64 { return a + (b-a)*draw.Float64() }
	task := made(t, system, layers, func(t *Task) {
		m := &t.Mandrel
		m.Material, _ = schedule.MaterialNamed(schedule.MaterialNames()[draw.IntN(len(schedule.MaterialNames()))])
		if draw.IntN(4) == 0 {
			m.Solid, m.Wall = true, 0
		}
		c := &t.Cure
		c.Oven.Highest = quantity.Celsius(between(45, 160))
		c.Exotherm = c.Oven.Highest + quantity.Temperature(between(0, 30))
		c.Oven.Ramp = kelvinPerHour(between(5, 240))
		c.Oven.Cooling, c.Oven.Loss = c.Oven.Ramp, quantity.HeatTransfer(between(8, 60))
		c.Degree = between(0.7, 0.97)
		switch draw.IntN(3) {
		case 0:
			c.Free = true
		case 1:
			c.Oven.Turns = true
		}
		if draw.IntN(2) == 0 {
			t.Fibre.Conductivity = 1
		}
	})
	return task, fmt.Sprintf("%d layers of %s on %s, %+v", layers, system, task.Mandrel.Material.Name, task.Cure)
}

// TestAnyPart: whatever the part, the search ends, every program that it gives is confirmed by the
// referee, and where it gives none it says why.
func TestAnyPart(t *testing.T) {
	n := testrun.Draws(4, 25)
	found := 0
	for i := range n {
		task, name := anyPart(t, rand.New(rand.NewPCG(7, uint64(i))))
		a, err := task.Solve()
		switch {
		case err != nil:
			t.Errorf("%s: %v", name, err)
		case a.Program == nil && a.Why == nil:
			t.Errorf("%s: no program and no reason", name)
		case a.Program != nil && len(a.Tally.Broken) > 0:
			t.Errorf("%s: %+v: %+v", name, a.Program.Steps, a.Tally.Broken)
		case a.Program != nil:
			found++
		default:
			t.Logf("%s: %+v", name, a.Why)
		}
	}
	t.Logf("%d of %d parts have a program", found, n)
	if !(found > n/4) {
		t.Errorf("only %d of %d parts have a program: this tests little", found, n)
	}
}
