package ode_test

import (
	"math"
	"testing"

	"potlife/kinetics/ode"
)

var oscillator = ode.Func(func(_ float64, y, dydt []float64) { dydt[0], dydt[1] = y[1], -y[0] })

func newOscillator(rel float64) *ode.Solver {
	s := ode.New(oscillator, ode.Tolerance{Rel: rel, Abs: []float64{rel, rel}})
	s.Start(0, []float64{1, 0})
	return s
}

// TestStepEndsAtTheEnd: steps go forward, never past the end, and reach it to
// the bit; at the end and beyond, a step does nothing.
func TestStepEndsAtTheEnd(t *testing.T) {
	for _, end := range []float64{1e-9, 0.1, 1. / 3, 1, 10, 100} {
		s := newOscillator(1e-6)
		for s.T() < end {
			before := s.T()
			if err := s.Step(end); err != nil {
				t.Fatal(err)
			}
			if !(s.T() > before && s.T() <= end) || s.Before() != before {
				t.Fatalf("a step towards %g went from %g (said %g) to %g", end, before, s.Before(), s.T())
			}
		}
		if s.T() != end {
			t.Errorf("reached %.17g, want %.17g to the bit", s.T(), end)
		}
		steps := s.Steps()
		if err := s.Step(end); err != nil || s.T() != end || s.Steps() != steps {
			t.Errorf("a step at the end moved to %g, err %v", s.T(), err)
		}
		if err := s.Step(end - 1); err != nil || s.T() != end {
			t.Errorf("a step towards the past moved to %g, err %v", s.T(), err)
		}
	}
}

// TestEndAFewBitsAway: ends of stretches come from sums of times, so one may lie
// a rounding error after the other. That is no failure.
func TestEndAFewBitsAway(t *testing.T) {
	for _, start := range []float64{1, 3600.1, 2.5e6} {
		end := start
		for bits := 1; bits <= 12; bits++ {
			end = math.Nextafter(end, math.Inf(1))
			s := newOscillator(1e-6)
			s.Start(start, []float64{1, 0})
			if err := s.Step(end); err != nil || s.T() != end {
				t.Errorf("from %g to an end %d bits on: reached %.17g, %v", start, bits, s.T(), err)
			}
		}
	}
}

// TestManyEnds: stopping every so often changes the answer by no more than the
// tolerance, some ten times accumulated.
func TestManyEnds(t *testing.T) {
	const rel = 1e-8
	s := newOscillator(rel)
	for i := 1; i <= 200; i++ {
		if err := advance(s, 10*float64(i)/200); err != nil {
			t.Fatal(err)
		}
	}
	if d := math.Abs(s.Y()[0] - math.Cos(10)); !(d <= 10*rel) {
		t.Errorf("y = %.12g, want %.12g", s.Y()[0], math.Cos(10))
	}
}

// TestStartForgets: a solver used before gives to the bit what a new one gives,
// its count of steps begins again, and evaluations go on counting.
func TestStartForgets(t *testing.T) {
	used, fresh := newOscillator(1e-7), newOscillator(1e-7)
	if err := advance(used, 33); err != nil {
		t.Fatal(err)
	}
	evaluations := used.Evaluations()
	used.Start(0, []float64{1, 0})
	if used.Steps() != 0 || used.T() != 0 || used.Before() != 0 {
		t.Errorf("after Start: %d steps, t = %g, before = %g", used.Steps(), used.T(), used.Before())
	}
	for _, s := range []*ode.Solver{used, fresh} {
		if err := advance(s, 5); err != nil {
			t.Fatal(err)
		}
	}
	if used.Y()[0] != fresh.Y()[0] || used.Y()[1] != fresh.Y()[1] || used.Steps() != fresh.Steps() {
		t.Errorf("used: %v in %d steps; new: %v in %d", used.Y(), used.Steps(), fresh.Y(), fresh.Steps())
	}
	if used.Evaluations() != evaluations+fresh.Evaluations() {
		t.Errorf("%d evaluations, want %d and %d more", used.Evaluations(), evaluations, fresh.Evaluations())
	}
}

// TestRestartKeepsItsPace: with the step size known, a run from a jump needs
// fewer evaluations than one that has to guess, and is as good.
func TestRestartKeepsItsPace(t *testing.T) {
	run := func(start func(s *ode.Solver)) (evaluations int, y float64) {
		s := newOscillator(1e-8)
		if err := advance(s, 3); err != nil {
			t.Fatal(err)
		}
		before := s.Evaluations()
		start(s)
		if err := advance(s, 4); err != nil {
			t.Fatal(err)
		}
		return s.Evaluations() - before, s.Y()[0]
	}
	again, y := run(func(s *ode.Solver) { s.Restart(3, []float64{0, 1}) })
	anew, _ := run(func(s *ode.Solver) { s.Start(3, []float64{0, 1}) })
	if !(again <= anew) {
		t.Errorf("%d evaluations after Restart, %d after Start", again, anew)
	}
	if !(math.Abs(y-math.Sin(1)) <= 1e-7) { // ten times the tolerance
		t.Errorf("y = %.10g, want sin 1 = %.10g", y, math.Sin(1))
	}
}

// TestBeforeTheFirstStep: dense output is the starting state and slope.
func TestBeforeTheFirstStep(t *testing.T) {
	s := newOscillator(1e-6)
	y := make([]float64, 2)
	s.At(0.5, y)
	if y[0] != 1 || y[1] != 0 {
		t.Errorf("state %v, want the start", y)
	}
	s.SlopeAt(0.5, y)
	if y[0] != 0 || y[1] != -1 {
		t.Errorf("slope %v, want that of the start", y)
	}
}

// TestStepsAllocateNothing: one solver serves thousands of baths.
func TestStepsAllocateNothing(t *testing.T) {
	s, start, y := newOscillator(1e-6), []float64{1, 0}, make([]float64, 2)
	got := testing.AllocsPerRun(20, func() {
		s.Start(0, start)
		for s.T() < 10 {
			if s.Step(10) != nil {
				t.Error("a step failed")
			}
			s.At(s.Before(), y)
			s.Peak(0, y)
		}
	})
	if got != 0 {
		t.Errorf("%g allocations in a run, want none", got)
	}
}
