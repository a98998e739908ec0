package learning

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/testrun"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

func prepared(t testing.TB, learned *schedule.Learned) *schedule.Winding {
	t.Helper()
	w := daytest.Demo(t, "telescope-strut.yaml")
	record, err := resins.Load(w.Job.ResinPath())
	if err != nil {
		t.Fatal(err)
	}
	w, err = schedule.PrepareWith(w.Job, record, learned)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// A world is hidden from the crew: what its resin, its fibre and its machine really do.
type hidden struct{ pickUp, reactivity, minutes float64 }

// day winds a plan in a hidden world: the crew mixes what the plan says, and one pot more
// where the bath would run short; it weighs what is left to a gram. Carried is the resin
// that really went onto the mandrel, in kg.
func (h hidden) day(t testing.TB, w *schedule.Winding, r *rand.Rand) (d *daytest.Day, carried float64) {
	t.Helper()
	d = daytest.New(w)
	plan := daytest.Planned(t, w).Plan
	fromCup := 1 - w.Task.Pots.LeftInCup
	bath, now, next := 0.0, 0.0, 0 // kg; minutes
	pour := func(grams float64) {
		pot := d.Mixed(now, grams)
		now += float64(w.Task.Pots.Mixing) / 60
		d.Poured(now, pot)
		now += float64(w.Task.Bath.Pour) / 60
		bath += grams / 1000 * fromCup
	}
	for u, unit := range w.Task.Units {
		if next < len(plan.Pours) && plan.Pours[next].Stop == u {
			for _, pot := range plan.Pours[next].Pots {
				pour(pot.Mass().In("g"))
			}
			next++
		}
		// What the layer really takes: the plan's resin is at the pick-up it knows.
		takes := float64(unit.Resin) / w.Job.PickUp * h.pickUp
		if short := takes + float64(w.Task.Bath.Lowest)*0.6 - bath; short > 0 {
			pour(math.Max(80, 1000*short/fromCup))
		}
		d.Begin(now, u+1)
		planned := float64(unit.Time)
		if w.Learned != nil {
			planned /= factor(w.Learned.Minutes)
		}
		took := math.Round(planned*h.minutes*math.Exp(0.03*r.NormFloat64())) / 60
		for _, share := range []float64{0.3, 0.7} {
			d.Temperature(now+share*took, 0) // until it is read
		}
		now += took
		bath -= takes
		carried += takes
		d.Done(now, u+1)
		now += float64(w.Task.Pause) / 60
	}
	h.read(t, w, d.Events, r)
	d.LeftOver(now, math.Round(1000*bath+r.NormFloat64()))
	d.Finish(now + 1)
	return d, carried
}

// read fills in what the thermometer says: the hidden bath, which has its own pick-up and
// pace, and a noise of half a kelvin.
func (h hidden) read(t testing.TB, w *schedule.Winding, events []session.Event, r *rand.Rand) {
	t.Helper()
	truth := *w
	truth.Laid = slices.Clone(w.Laid)
	for i := range truth.Laid {
		truth.Laid[i].Resin *= quantity.Mass(h.pickUp / w.Job.PickUp)
	}
	// The hidden world knows how long each layer will take.
	var begun time.Time
	for _, e := range events {
		if e.Kind == session.Begin {
			begun = e.At
		}
		if e.Kind == session.Done {
			truth.Laid[e.Layer-1].Time = quantity.Time(e.At.Sub(begun).Seconds())
		}
	}
	learned := 1.0
	if w.Learned != nil {
		learned = factor(w.Learned.Reactivity)
	}
	member := ensemble.Member{Rate: h.reactivity / learned, Viscosity: 1, Loss: 1, Weight: 1}
	for i := range events {
		if events[i].Kind != session.BathTemp {
			continue
		}
		before := events[:i]
		s, err := replay.Compile(&truth, before, events[i].At)
		if err != nil {
			t.Fatal(err)
		}
		world, err := s.World(member)
		if err != nil {
			t.Fatal(err)
		}
		*events[i].IsC = world.Bath.Temperature.Celsius() + 0.5*r.NormFloat64()
	}
}

// eight lets eight sessions be wound in a hidden world and returns what they teach, and the
// next plan's resin over what the twin then uses.
func (h hidden) eight(t *testing.T, r *rand.Rand) (*schedule.Learned, float64) {
	t.Helper()
	w := prepared(t, nil)
	var sessions []*Session
	for k := range 8 {
		d, _ := h.day(t, w, r)
		end := d.Clock(d.Last())
		one, err := Observe(fmt.Sprint("session ", k), &replay.Journal{Winding: w, Events: d.Events, Started: w.Job.Start, Ended: end})
		if err != nil {
			t.Fatal(err)
		}
		one.At = end.AddDate(0, 0, 7*k)
		sessions = append(sessions, one)
	}
	l := Learn(sessions)
	next := prepared(t, l)
	planned := 0.0
	for _, u := range next.Task.Units {
		planned += float64(u.Resin)
	}
	_, used := h.day(t, next, r)
	return l, planned / used
}

// TestEightTwins: eight simulated sessions with a hidden pick-up of 1.12 and reactivity of
// 0.85. learn must find both within its own stated spread, and the next plan's resin must be
// within 3 % of what the twin then uses. The spread is one of 9 times in 10: of twenty such
// worlds two may miss it, and four by the chance of 1 in 20; resin must fit in all.
func TestEightTwins(t *testing.T) {
	h := hidden{pickUp: 1.12, reactivity: 0.85, minutes: 1.1}
	worlds := testrun.Count(2, 20)
	missed := map[string]int{}
	for k := range worlds {
		l, resin := h.eight(t, rand.New(rand.NewPCG(uint64(k), 12)))
		for _, c := range []struct {
			name   string
			lesson schedule.Lesson
			truth  float64
		}{{"pick-up", l.PickUp, h.pickUp}, {"reactivity", l.Reactivity, h.reactivity}, {"minutes", l.Minutes, h.minutes}} {
			if k < 3 {
				t.Logf("world %d, %s: %.3f within a factor of %.3f from %d sessions; in truth %.3f", k, c.name, c.lesson.Value, c.lesson.Spread, c.lesson.Sessions, c.truth)
			}
			if off := math.Abs(math.Log(c.lesson.Value / c.truth)); !(off <= math.Log(c.lesson.Spread)) {
				missed[c.name]++
				t.Logf("world %d, %s: learned %.3f within a factor of %.3f, in truth %.3f", k, c.name, c.lesson.Value, c.lesson.Spread, c.truth)
			}
			if c.lesson.Sessions != 8 {
				t.Errorf("world %d: %s stands on %d sessions, not 8", k, c.name, c.lesson.Sessions)
			}
		}
		if !(math.Abs(resin-1) <= 0.03) {
			t.Errorf("world %d: the next plan winds %.3f times the resin that the twin takes", k, resin)
		}
	}
	for name, n := range missed {
		if n > 4 {
			t.Errorf("%s: %d of %d worlds lie outside the spread of the lesson", name, n, worlds)
		}
	}
}
