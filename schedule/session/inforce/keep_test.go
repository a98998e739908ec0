package inforce

import (
	"encoding/json"
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// TestRoundTrip: a plan that went through a journal is the plan again: the same stops, ways and
// pots, the same times to the second, and sound for the referee on the bath it was made for. So
// for whole jobs, and for rests with resin in the bath and a cup that stands.
func TestRoundTrip(t *testing.T) {
	cup := day{daytest.New(prepared(t))}
	cup.Fill(0, 330)
	cup.Begin(6, 1)
	cup.Pause(12)
	cup.Mixed(18, 120)
	for _, c := range []struct {
		name string
		d    day
		at   float64
	}{
		{"strut", day{daytest.NewAt(daytest.Demo(t, "telescope-strut.yaml"), -10)}, -5},
		{"shell", day{daytest.NewAt(daytest.Demo(t, "softener-shell.yaml"), -10)}, -5},
		{"tube", day{daytest.NewAt(prepared(t), -10)}, -5},
		{"circuits", day{daytest.NewAt(circuits(t), -10)}, -5},
		{"rest with a cup", cup, 20},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := c.d.play(t, c.at)
			usable, err := p.Usable()
			if err != nil {
				t.Fatal(err)
			}
			made := p.Begun(usable)
			units := *made
			solution, err := made.Solve()
			if err != nil || !solution.Feasible() {
				t.Fatal(err)
			}
			kept := throughJSON(t, made, solution)
			c.d.Planned(c.at, kept)
			again, _ := c.d.rest(t, c.at)
			if !again.Holds() {
				t.Fatalf("it does not hold: %+v, %+v", again.Chance, again.Breach)
			}
			samePlan(t, &units, made, solution.Plan, again.Plan)
			confirmed, err := batches.Confirm(units.Task, again.Plan, solution.Plan.Member, again.Chance)
			if err != nil {
				t.Fatal(err)
			}
			if broken := confirmed.Tally.Broken; len(broken) > 0 {
				t.Errorf("the referee says %v", broken)
			}
			if a, b := confirmed.Plan.Score, solution.Plan.Score; a.Changes != b.Changes || a.Gelled != b.Gelled || a.Pots != b.Pots || !(math.Abs(float64(a.Waste-b.Waste)) <= 1e-6) {
				t.Errorf("its score is %+v, it was %+v", a, b)
			}
			if got := kept.Tightest; !(math.Abs(got.LeftS-got.ReserveS-float64(solution.Plan.Score.Spare)) <= 60) {
				// The search asks for the life left more seldom than the referee.
				t.Errorf("least is to spare at %+v, the plan has %v", got, solution.Plan.Score.Spare)
			}
		})
	}
}

func throughJSON(t *testing.T, w *schedule.Winding, s *batches.Solution) *session.Plan {
	t.Helper()
	kept, err := Keep(w, s, session.Taken)
	if err != nil {
		t.Fatal(err)
	}
	line, err := json.Marshal(kept)
	if err != nil {
		t.Fatal(err)
	}
	back := new(session.Plan)
	if err := json.Unmarshal(line, back); err != nil {
		t.Fatal(err)
	}
	return back
}

// samePlan compares a plan with one whose units may be parts of the other's.
func samePlan(t *testing.T, fine, coarse *schedule.Winding, was, is *batches.Plan) {
	t.Helper()
	if len(was.Pours) != len(is.Pours) {
		t.Fatalf("%d pours, there were %d", len(is.Pours), len(was.Pours))
	}
	same := func(what string, a, b quantity.Time) {
		if !(math.Abs(float64(a-b)) <= 1) {
			t.Errorf("%s at %.2f s, it was %.2f s", what, float64(b), float64(a))
		}
	}
	for i := range was.Pours {
		a, b := &was.Pours[i], &is.Pours[i]
		layer, circuits := placeOf(coarse, a.Stop)
		if l, c := placeOf(fine, b.Stop); l != layer || c != circuits || a.Into != b.Into || len(a.Pots) != len(b.Pots) {
			t.Fatalf("pour %d is %+v, it was %+v", i+1, b, a)
		}
		same("the pour", a.At, b.At)
		for k := range a.Pots {
			x, y := a.Pots[k], b.Pots[k]
			same("mixing", x.MixAt, y.MixAt)
			if x.Seq != y.Seq || !(math.Abs(float64(x.Resin-y.Resin)) <= 1e-12) || !(math.Abs(float64(x.Hardener-y.Hardener)) <= 1e-12) {
				t.Errorf("a pot is %+v, it was %+v", y, x)
			}
		}
	}
	same("the end", was.End[len(was.End)-1], is.End[len(is.End)-1])
}

// TestMorningIsTheSame: a session that kept no plan derives the one that its start would have
// kept.
func TestMorningIsTheSame(t *testing.T) {
	for _, w := range []*schedule.Winding{prepared(t), circuits(t)} {
		a, err := Morning(w)
		if err != nil || a == nil {
			t.Fatal(err)
		}
		b, err := Morning(w)
		if err != nil {
			t.Fatal(err)
		}
		x, _ := json.Marshal(a)
		y, _ := json.Marshal(b)
		if string(x) != string(y) {
			t.Errorf("%s\n%s", x, y)
		}
	}
	hopeless := prepared(t, "lowest: 120 g, highest: 900 g", "lowest: 120 g, highest: 125 g")
	if p, err := Morning(hopeless); p != nil || err != nil {
		t.Errorf("a bath that holds nothing has the plan %+v, %v", p, err)
	}
}
