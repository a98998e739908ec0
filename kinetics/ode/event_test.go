package ode

import (
	"math"
	"testing"
)

// sine is the oscillator y” = −y as a system; from (0, 1) y is sin t.
var sine = Func(func(_ float64, y, dydt []float64) { dydt[0], dydt[1] = y[1], -y[0] })

// firstCrossing runs sine from t = 0 and returns the first time at which g rises
// through zero.
func firstCrossing(t *testing.T, rel float64, g func(float64, []float64) float64, end float64) (float64, bool) {
	t.Helper()
	s := New(sine, Tolerance{Rel: rel, Abs: []float64{rel, rel}})
	s.Start(0, []float64{0, 1})
	scratch := make([]float64, 2)
	for s.T() < end {
		before := g(s.T(), s.Y())
		if err := s.Step(end); err != nil {
			t.Fatal(err)
		}
		if at, found := s.Crossing(g, before, g(s.T(), s.Y()), scratch); found {
			return at, true
		}
	}
	return 0, false
}

// TestCrossingIsAsGoodAsTheTolerance: the error of an event is that of the state
// divided by the slope; a thousand times the tolerance leaves room for what
// accumulates on the way, and the bound falls with it.
func TestCrossingIsAsGoodAsTheTolerance(t *testing.T) {
	for _, rel := range []float64{1e-4, 1e-6, 1e-8, 1e-10} {
		for _, c := range []struct {
			what  string
			g     func(float64, []float64) float64
			wants float64
		}{
			{"sin t reaches 1/2", func(_ float64, y []float64) float64 { return y[0] - 0.5 }, math.Pi / 6},
			{"-cos t reaches 0", func(_ float64, y []float64) float64 { return -y[1] }, math.Pi / 2},
			{"sin t is back at 0 from below", func(_ float64, y []float64) float64 { return y[0] }, 2 * math.Pi},
			{"a margin of t alone", func(t float64, _ []float64) float64 { return t - 5 }, 5},
		} {
			got, found := firstCrossing(t, rel, c.g, 7)
			if !found || !(math.Abs(got-c.wants) <= 1e3*rel) {
				t.Errorf("tolerance %g, %s: %.12g (found %t), want %.12g", rel, c.what, got, found, c.wants)
			}
		}
	}
}

func TestCrossingIsNotMadeUp(t *testing.T) {
	if at, found := firstCrossing(t, 1e-8, func(_ float64, y []float64) float64 { return y[0] - 1.001 }, 20); found {
		t.Errorf("sin t never reaches 1.001, yet a crossing at %g", at)
	}
	if at, found := firstCrossing(t, 1e-8, func(float64, []float64) float64 { return 1 }, 20); found {
		t.Errorf("a margin that is never negative has no upward crossing, yet %g", at)
	}
}

// hump takes the single step 0 to 1 of y' = 8(c − t)·height, an integral that the
// method and its extension have exactly: y = 4·height·(2ct − t²) − height.
func hump(c, height float64) *Solver {
	s := New(Func(func(t float64, _, dydt []float64) { dydt[0] = 8 * (c - t) * height }), Tolerance{Abs: []float64{1}})
	s.Start(0, []float64{-height})
	fixedStep(s, 1)
	return s
}

// TestCrossingThatRisesAndFallsInOneStep: both ends of the step are below zero.
// The hump stands at one place after another of the step; its top is
// height·(4c² − 1) above zero where that is positive.
func TestCrossingThatRisesAndFallsInOneStep(t *testing.T) {
	for _, c := range []float64{0.5001, 0.51, 0.52, 0.55, 0.6, 0.62} {
		s := hump(c, 2)
		g := func(_ float64, y []float64) float64 { return y[0] }
		before, now := s.YBefore()[0], s.Y()[0]
		if !(before < 0 && now < 0) {
			t.Fatalf("c = %g: the ends are %g and %g, not both below zero", c, before, now)
		}
		got, found := s.Crossing(g, before, now, make([]float64, 1))
		want := c - math.Sqrt(c*c-0.25)
		// The root of a parabola so flat is known to the square root of rounding.
		if !found || !(math.Abs(got-want) <= 1e-7) {
			t.Errorf("c = %g: crossing %g (found %t), want %g", c, got, found, want)
		}
	}
	s := hump(0.49, 2)
	if at, found := s.Crossing(func(_ float64, y []float64) float64 { return y[0] }, s.YBefore()[0], s.Y()[0], make([]float64, 1)); found {
		t.Errorf("the hump stays below zero, yet a crossing at %g", at)
	}
}

// TestPeak: the highest value of sin t, 1 at π/2, found in the step that holds it
// and in no other.
func TestPeak(t *testing.T) {
	s := New(sine, Tolerance{Rel: 1e-9, Abs: []float64{1e-9, 1e-9}})
	s.Start(0, []float64{0, 1})
	scratch := make([]float64, 2)
	var times []float64
	for s.T() < 10 {
		if err := s.Step(10); err != nil {
			t.Fatal(err)
		}
		at, value, found := s.Peak(0, scratch)
		if !found {
			continue
		}
		times = append(times, at)
		// Errors of the tolerance, some ten times accumulated.
		if !(math.Abs(value-1) <= 1e-8) {
			t.Errorf("peak %.12g at %g, want 1", value, at)
		}
	}
	if len(times) != 2 || !(math.Abs(times[0]-math.Pi/2) <= 1e-6) || !(math.Abs(times[1]-5*math.Pi/2) <= 1e-6) {
		t.Errorf("peaks at %v, want π/2 and 5π/2", times)
	}
}
