package replay

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/daytest"
)

// played replays a day to a moment.
func played(t testing.TB, d day, minutes float64) *Played {
	t.Helper()
	p, err := d.script(t, minutes).Play()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestReplanInTheMorning: nothing has happened yet, so the plan of the rest is the plan.
func TestReplanInTheMorning(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		w := daytest.Demo(t, name)
		morning := daytest.Planned(t, w)
		rest, err := restOf(t, played(t, newDay(w), 0)).Solve()
		if err != nil || !rest.Feasible() {
			t.Fatal(name, err)
		}
		a, b := morning.Plan, rest.Plan
		if len(a.Pours) != len(b.Pours) {
			t.Fatalf("%s: %d pours, in the morning %d", name, len(b.Pours), len(a.Pours))
		}
		for i := range a.Pours {
			// 160 of the 240 members judge: the sure bath, and with it the plan, must be the same.
			if a.Pours[i].Stop != b.Pours[i].Stop || !(math.Abs(float64(a.Pours[i].At-b.Pours[i].At)) <= 1e-6) || a.Pours[i].Mass() != b.Pours[i].Mass() {
				t.Errorf("%s: pour %d is %+v, in the morning %+v", name, i+1, b.Pours[i], a.Pours[i])
			}
		}
	}
}

// TestReplanOnTheWay: at any moment of days that go by the plan or astray, the rest to be
// planned is sound: units of positive time that add up to what is not wound, and a plan that
// passes the referee, who integrates strictly and keeps his own books.
func TestReplanOnTheWay(t *testing.T) {
	byPlan := newDay(daytest.Demo(t, "telescope-strut.yaml"))
	byPlan.AsPlanned(daytest.Planned(t, byPlan.W).Plan)
	astray := newDay(daytest.Prepared(t, calibrated...))
	astray.Fill(0, 330)
	astray.Begin(6, 1)
	astray.Pause(12)
	astray.Mixed(18, 120)
	astray.Resume(24)
	astray.Temperature(26, 24.5)
	circuit := newDay(circuits(t))
	circuit.Fill(0, 200)
	circuit.Begin(6, 1)
	for _, c := range []struct {
		name string
		d    day
		at   []float64
	}{
		{"by the plan", byPlan, []float64{1, 5, 20, 38, 38.9, 60, 110, 126, 160}},
		{"astray, with a cup", astray, []float64{13, 19, 25, 27, 45}},
		{"overdue", astray, []float64{60, 90, 400}},
		{"circuits", circuit, []float64{1, 6, 8, 10, 12, 14}},
		{"circuits, overdue", circuit, []float64{60, 200}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, m := range c.at {
				p := played(t, c.d, m)
				rest := restOf(t, p)
				checkRest(t, p, rest, m)
				s, err := rest.Solve()
				if err != nil {
					t.Fatal(m, err)
				}
				if !s.Feasible() {
					t.Errorf("after %g min there is no plan: %+v", m, s.Breach)
					continue
				}
				tally, err := batches.Referee(rest.Task, s.Plan)
				if err != nil || len(tally.Broken) > 0 {
					t.Errorf("after %g min the referee says %v %v", m, tally.Broken, err)
				}
				if first := s.Plan.Pours[0]; first.At < p.Now() {
					t.Errorf("after %g min a pour lies in the past: %+v", m, first)
				}
			}
		})
	}
}

// checkRest checks the units of a rest and the layers that a report tells.
func checkRest(t *testing.T, p *Played, rest *schedule.Winding, minutes float64) {
	t.Helper()
	s := p.Script
	want := quantity.Mass(0)
	for i := range s.Winding.Laid {
		switch {
		case i < s.Day.LastDone:
		case s.Day.InHand == i+1:
			want += s.Winding.Laid[i].Resin * quantity.Mass(1-s.InHand().Wound())
		default:
			want += s.Winding.Laid[i].Resin
		}
	}
	units, ends := quantity.Mass(0), 0
	for _, u := range rest.Task.Units {
		if !(u.Time > 0) || math.IsInf(float64(u.Time), 0) || !(u.Resin >= 0) || !(u.FibreWeight >= 0) {
			t.Errorf("after %g min: a unit of %v s, %v, %v", minutes, u.Time, u.Resin, u.FibreWeight)
		}
		units += u.Resin
		if u.EndsLayer {
			ends++
		}
	}
	if d := math.Abs(float64(units - want)); !(d <= 1e-9) { // rounding, and the sliver of a unit that is left out
		t.Errorf("after %g min %v are still to be wound, the units take %v", minutes, want, units)
	}
	if left := len(s.Winding.Laid) - s.Day.LastDone; ends != left {
		t.Errorf("after %g min %d layers end, not %d", minutes, ends, left)
	}
	// A cup that is past use is not planned with.
	usable, err := p.Usable()
	if err != nil {
		t.Fatal(err)
	}
	if len(usable) > len(s.Standing()) || len(rest.Task.Begin.Cups) != len(usable) || rest.Task.Begin.Filled != s.Filled() || rest.Task.Begin.At != p.Now() {
		t.Errorf("after %g min the plan begins with %+v", minutes, rest.Task.Begin)
	}
	if l := s.InHand(); l != nil {
		laid := rest.Laid[l.Index]
		if laid.Circuits < 1 || !(laid.Time > 0) || !(laid.Resin >= 0) || laid.Circuits > s.Winding.Laid[l.Index].Circuits {
			t.Errorf("after %g min the layer in hand is %+v", minutes, laid)
		}
	}
}

// restOf is the rest of the winding with the cups that can still be used.
func restOf(t testing.TB, p *Played) *schedule.Winding {
	t.Helper()
	usable, err := p.Usable()
	if err != nil {
		t.Fatal(err)
	}
	return p.Begun(usable)
}

// TestReplanAfterAPause plans from its end, and from an older bath.
func TestReplanAfterAPause(t *testing.T) {
	w := daytest.Prepared(t, calibrated...)
	d := newDay(w)
	d.Fill(0, 330)
	d.Begin(6, 1)
	j := Journal{Winding: w, Events: d.Events, Started: d.Clock(0)}
	s, err := j.Script(d.Clock(12), d.Clock(25).Sub(d.Clock(12)))
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	rest := restOf(t, p)
	if rest.Task.Begin.At != 25*60 {
		t.Errorf("it begins at %v", rest.Task.Begin.At)
	}
	checkRest(t, p, rest, 25)
	without := played(t, d, 12)
	if a, b := without.Script.Rest()[0], s.Rest()[0]; a != b {
		t.Errorf("the pause changes what is left of the layer: %+v, without it %+v", b, a)
	}
	older, err := rest.Task.Heel(nominal())
	if err != nil {
		t.Fatal(err)
	}
	younger, err := restOf(t, without).Task.Heel(nominal())
	if err != nil {
		t.Fatal(err)
	}
	if !(older.State.Alpha > younger.State.Alpha) || older.State.Mass != younger.State.Mass || older.Life != younger.Life {
		t.Errorf("after the pause the heel is %+v, without it %+v", older, younger)
	}
}
