package replay

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

// TestReplayAgreesWithThePlan: a day that goes by the plan is, on the bath that the plan is
// made for, what the plan's referee saw, which integrates strictly and keeps its own books.
// The life left must agree within a minute, as a crew reads it; what is computed from the
// same laws agrees far better, and that is asked for: a tenth of a second for the clock times
// of a log, which are whole nanoseconds, and the working precision, 1e-4 of two hours.
func TestReplayAgreesWithThePlan(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		t.Run(name, func(t *testing.T) {
			w := daytest.Demo(t, name)
			s := daytest.Planned(t, w)
			d := newDay(w)
			d.AsPlanned(s.Plan)
			compare := func(what string, at, want quantity.Time) {
				t.Helper()
				world, err := d.script(t, float64(at)/60).World(s.Plan.Member)
				if err != nil {
					t.Fatal(err)
				}
				left, _, err := world.Ahead().Exactly(lifeHorizon)
				if err != nil {
					t.Fatal(err)
				}
				if d := math.Abs(float64(left - want)); !(d <= 2) {
					t.Errorf("%s, at %.0f s: %.1f s are left, the plan says %.1f s", what, float64(at), float64(left), float64(want))
				}
			}
			for i, pour := range s.Plan.Pours {
				seen := s.Tally.Pours[i]
				compare("after a pour", pour.At, seen.Life)
				// The least before the next pour is often at that pour: a moment earlier.
				compare("where least is left", seen.LeastAt-0.001, seen.Least)
			}
			for u := range w.Task.Units {
				world, err := d.script(t, float64(s.Plan.End[u])/60).World(s.Plan.Member)
				if err != nil {
					t.Fatal(err)
				}
				want := s.Tally.Units[u].Bath
				if d := math.Abs(float64(world.Bath.Mass - want.Mass)); !(d <= 1e-6) {
					t.Errorf("after layer %d the bath holds %v, the plan says %v", u+1, world.Bath.Mass, want.Mass)
				}
				if d := math.Abs(float64(world.Bath.Temperature - want.Temperature)); !(d <= 0.01) {
					t.Errorf("after layer %d the bath has %v, the plan says %v", u+1, world.Bath.Temperature, want.Temperature)
				}
			}
		})
	}
}

// TestTheTowStops: a bath that was read while the tow ran, and then stops, loses its tow's
// cooling. What is left is that of an independent reckoning: the bath of package vessel
// followed strictly with the tow to the stop and without it from there.
func TestTheTowStops(t *testing.T) {
	w := daytest.Prepared(t)
	d := newDay(w)
	d.Fill(0, 600)
	d.Begin(6, 1)
	running := d.script(t, 26)
	d.Pause(26)
	stopped := d.script(t, 26)

	m := nominal()
	world, err := stopped.World(m)
	if err != nil {
		t.Fatal(err)
	}
	left, _, err := world.Ahead().Left(lifeHorizon)
	if err != nil {
		t.Fatal(err)
	}
	other, err := running.World(m)
	if err != nil {
		t.Fatal(err)
	}
	winding, _, err := other.Ahead().LeftWinding(running.Rest()[0], lifeHorizon)
	if err != nil {
		t.Fatal(err)
	}
	if !(winding > left+60) {
		t.Errorf("with the tow running %.0f s are left and %.0f s without: the missing cooling does not count", float64(winding), float64(left))
	}

	task := w.Task
	cup := vessel.New(task.Resin, task.Pots.Cup, task.Room, task.Room, vessel.Strict)
	bath := vessel.New(task.Resin, task.Bath.Vessel, task.Room, task.Wall, vessel.Strict)
	state, err := cup.Advance(vessel.State{Mass: 0.6, Temperature: w.Job.ResinAt}, 0, 300, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	state.Mass *= quantity.Mass(1 - task.Pots.LeftInCup)
	if state, err = bath.Advance(state, 300, 360, vessel.Tow{}); err != nil {
		t.Fatal(err)
	}
	laid := w.Laid[0]
	tow := vessel.Tow{DrawKgPerS: float64(laid.Resin / quantity.Mass(laid.Time)), FibreKgPerS: float64(laid.Fibre / quantity.Mass(laid.Time)), HeatCapacity: task.Fibre}
	if state, err = bath.Advance(state, 360, 26*60, tow); err != nil {
		t.Fatal(err)
	}
	life, err := bath.Life(state, 26*60, vessel.Tow{}, 0, task.Limits, lifeHorizon)
	if err != nil {
		t.Fatal(err)
	}
	// Working precision is 1e-4 of the time to whatever comes slowly.
	if d := math.Abs(float64(life.Left - left)); !(d <= 1e-4*float64(life.Left)+0.1) {
		t.Errorf("%.1f s are left, by an independent reckoning %.1f s", float64(left), float64(life.Left))
	}
	t.Logf("%.0f min with the tow, %.0f min without", float64(winding)/60, float64(left)/60)
}
