package ode_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/ode"
	"potlife/kinetics/outside"
)

// advance steps to end.
func advance(s *ode.Solver, end float64) error {
	for s.T() < end {
		if err := s.Step(end); err != nil {
			return err
		}
	}
	return nil
}

// failure demands an *ode.Error whose text shows the time.
func failure(t *testing.T, err error) *ode.Error {
	t.Helper()
	var e *ode.Error
	if !errors.As(err, &e) {
		t.Fatalf("got %v, want an *ode.Error", err)
	}
	if !strings.Contains(e.Error(), "t = ") || !strings.Contains(e.Error(), "state [") {
		t.Errorf("the message names no time or state: %v", e)
	}
	for i, y := range e.Y {
		if math.IsNaN(y) || math.IsInf(y, 0) {
			t.Errorf("component %d of the last good state is %g", i, y)
		}
	}
	return e
}

// robertson is the stiff problem of H. H. Robertson (1966).
var robertson = ode.Func(func(_ float64, y, dydt []float64) {
	dydt[0] = -0.04*y[0] + 1e4*y[1]*y[2]
	dydt[2] = 3e7 * y[1] * y[1]
	dydt[1] = -dydt[0] - dydt[2]
})

func newRobertson() *ode.Solver {
	s := ode.New(robertson, ode.Tolerance{Rel: 1e-8, Abs: []float64{1e-10, 1e-12, 1e-10}})
	s.Start(0, []float64{1, 0, 0})
	return s
}

// TestStiffProblemEndsByBudget: an explicit method needs some 40 000 steps for
// 40 s of this problem. It must say so and where it stands, not hang.
func TestStiffProblemEndsByBudget(t *testing.T) {
	e := failure(t, advance(newRobertson(), 40))
	if !errors.Is(e, ode.ErrBudget) || e.Steps != ode.DefaultBudget {
		t.Errorf("got %v after %d steps, want the budget of %d", e.Cause, e.Steps, ode.DefaultBudget)
	}
	if !(e.T > 0 && e.T < 40) {
		t.Errorf("stopped at %g, want between 0 and 40", e.T)
	}
	// A linear invariant, which a Runge-Kutta method keeps to rounding.
	if sum := e.Y[0] + e.Y[1] + e.Y[2]; !(math.Abs(sum-1) <= 1e-10) {
		t.Errorf("the species sum to %.15g, want 1", sum)
	}
}

// TestStiffProblemWithABudget: given the steps, it gets there. Values at 40 s of
// Robertson's problem to the nine or ten digits quoted in public test suites.
func TestStiffProblemWithABudget(t *testing.T) {
	s := newRobertson()
	s.Budget = 200_000
	if err := advance(s, 40); err != nil {
		t.Fatal(err)
	}
	for i, c := range []struct {
		printed string
		want    float64
	}{{"0.715827069", 0.715827069}, {"9.185534765e-6", 9.185534765e-6}, {"0.284163746", 0.284163746}} {
		outside.Check(t, outside.Row{
			ID: fmt.Sprintf("integrators/robertson/%d", i+1), Subject: outside.Integrators, Source: "robertson", Mark: outside.Seen,
			What: fmt.Sprintf("Robertson's stiff problem: species %d at 40 s", i+1), Printed: c.printed,
			Within: 1e-7 * c.want, Why: "half a unit of the last digit and a few times the tolerance of the steps",
		}, s.Y()[i])
	}
}

func TestSmallBudget(t *testing.T) {
	s := newRobertson()
	s.Budget = 3
	if e := failure(t, advance(s, 40)); !errors.Is(e, ode.ErrBudget) || e.Steps != 3 {
		t.Errorf("got %v after %d steps, want the budget after 3", e.Cause, e.Steps)
	}
}

// TestNotFinite: a slope that is NaN from the start, and one that becomes so.
func TestNotFinite(t *testing.T) {
	nan := func(from float64) *ode.Solver {
		return ode.New(ode.Func(func(t float64, _, dydt []float64) {
			dydt[0] = 1
			if t >= from {
				dydt[0] = math.NaN()
			}
		}), ode.Tolerance{Rel: 1e-6, Abs: []float64{1e-6}})
	}
	s := nan(0)
	s.Start(0, []float64{1})
	if e := failure(t, s.Step(10)); !errors.Is(e, ode.ErrNotFinite) || e.T != 0 {
		t.Errorf("got %v at %g, want not finite at 0", e.Cause, e.T)
	}
	s = nan(2)
	s.Start(0, []float64{1})
	// The last good point lies below 2 by a few of the smallest steps, and y = 1 + t there.
	if e := failure(t, advance(s, 10)); !(e.T < 2 && e.T > 2-1e-12) || !(math.Abs(e.Y[0]-3) <= 1e-9) {
		t.Errorf("stopped at %.17g with %v, want just below 2 with y = 3", e.T, e.Y)
	}
	s.Start(0, []float64{math.Inf(1)})
	if err := s.Step(1); !errors.Is(err, ode.ErrNotFinite) {
		t.Errorf("infinite start: %v, want not finite", err)
	}
}

// TestBlowUp: y' = y², y(0) = 1 has y = 1/(1 − t), which ends at t = 1.
func TestBlowUp(t *testing.T) {
	s := ode.New(ode.Func(func(_ float64, y, dydt []float64) { dydt[0] = y[0] * y[0] }), ode.Tolerance{Rel: 1e-8, Abs: []float64{1e-8}})
	s.Start(0, []float64{1})
	e := failure(t, advance(s, 2))
	// The pole moves with the error of the steps, some 1e-8 each relative to 1 − t.
	if !(math.Abs(e.T-1) <= 1e-6) || !(e.Y[0] > 1e6) {
		t.Errorf("stopped at %.15g with y = %g, want at the pole 1 with y beyond 1e6", e.T, e.Y[0])
	}
}
