package rosenbrock

import (
	"errors"
	"math"
	"testing"

	"potlife/kinetics/ode"
)

// scalar is one equation with its Jacobian.
type scalar struct {
	f, fy, ft func(t, y float64) float64
	j, g      float64
}

func (s *scalar) Derivative(t float64, y, dydt []float64) { dydt[0] = s.f(t, y[0]) }

func (s *scalar) Linearise(t float64, y, _, dfdt []float64) {
	s.j, dfdt[0] = s.fy(t, y[0]), s.ft(t, y[0])
}

func (s *scalar) Factor(g float64) bool { s.g = g; return g > s.j }

func (s *scalar) Solve(x []float64) { x[0] /= s.g - s.j }

// logistic is y' = y(1 − y)(1 + sin t): logit y = logit y(0) + t + 1 − cos t.
func logistic() *scalar {
	return &scalar{
		f:  func(t, y float64) float64 { return y * (1 - y) * (1 + math.Sin(t)) },
		fy: func(t, y float64) float64 { return (1 - 2*y) * (1 + math.Sin(t)) },
		ft: func(t, y float64) float64 { return y * (1 - y) * math.Cos(t) },
	}
}

func logisticExact(t float64) float64 {
	return 1 / (1 + 9*math.Exp(-(t+1-math.Cos(t))))
}

// drawn is a slow decay y1' = −y1 and a fast mode drawn to it, y2' = λ(y2 − y1),
// as a thin cell is to its neighbour.
type drawn struct{ lambda, g float64 }

func (d *drawn) Derivative(_ float64, y, dydt []float64) {
	dydt[0], dydt[1] = -y[0], d.lambda*(y[1]-y[0])
}
func (d *drawn) Linearise(_ float64, _, _, dfdt []float64) { dfdt[0], dfdt[1] = 0, 0 }
func (d *drawn) Factor(g float64) bool                     { d.g = g; return true }
func (d *drawn) Solve(x []float64) {
	x[0] /= d.g + 1
	x[1] = (x[1] - d.lambda*x[0]) / (d.g - d.lambda)
}

// errorsOf halves fixed steps and returns the error at the end and the largest
// error of the continuous extension inside a step.
func errorsOf(s *scalar, exact func(float64) float64, end float64, first int) (ends, inside []float64) {
	for n := first; n <= 8*first; n *= 2 {
		solver := New(s, Tolerance{Abs: []float64{1}, Origin: []float64{0}})
		solver.Start(0, []float64{exact(0)}, 1)
		h, worst := end/float64(n), 0.0
		for range n {
			solver.try(h)
			solver.accept(h, 1, math.Inf(1), false)
			for _, x := range []float64{0.25, 0.5, 0.75} {
				t := solver.Before() + x*h
				worst = math.Max(worst, math.Abs(solver.Value(0, t)-exact(t)))
			}
		}
		ends = append(ends, math.Abs(solver.Y()[0]-exact(solver.T())))
		inside = append(inside, worst)
	}
	return ends, inside
}

func observed(errs []float64) float64 {
	n := len(errs) - 1
	return math.Log2(errs[0]/errs[n]) / float64(n)
}

// TestOrder halves steps. An order is where the slope tends to; at these steps the
// next term still shows, for which 0.3 is allowed; a wrong coefficient costs at
// least a whole order. A cubic errs by the fourth power of the step.
func TestOrder(t *testing.T) {
	ends, inside := errorsOf(logistic(), logisticExact, 3, 40)
	if got := observed(ends); !(math.Abs(got-4) <= 0.3) {
		t.Errorf("order %.2f, want 4; errors %.3g", got, ends)
	}
	if got := observed(inside); !(math.Abs(got-4) <= 0.3) {
		t.Errorf("order %.2f between steps, want 4; errors %.3g", got, inside)
	}
}

// TestSystemOrder: conditions of the order that one equation cannot see show in
// two that turn into each other, y1' = y2, y2' = −y1·(1 + y1² − cos² t), with the
// solution cos t, −sin t.
func TestSystemOrder(t *testing.T) {
	var errs []float64
	for _, n := range []int{40, 80, 160, 320} {
		s := New(&pendulum{}, Tolerance{Abs: []float64{1, 1}, Origin: []float64{0, 0}})
		s.Start(0, []float64{1, 0}, 1)
		for range n {
			s.try(6 / float64(n))
			s.accept(6/float64(n), 1, math.Inf(1), false)
		}
		errs = append(errs, math.Hypot(s.Y()[0]-math.Cos(6), s.Y()[1]+math.Sin(6)))
	}
	if got := observed(errs); !(math.Abs(got-4) <= 0.3) {
		t.Errorf("order %.2f, want 4; errors %.3g", got, errs)
	}
}

// pendulum is two equations with a full Jacobian, solved by Cramer's rule.
type pendulum struct{ j, g float64 }

func (p *pendulum) Derivative(t float64, y, dydt []float64) {
	dydt[0], dydt[1] = y[1], -y[0]*(1+y[0]*y[0]-math.Cos(t)*math.Cos(t))
}

func (p *pendulum) Linearise(t float64, y, _, dfdt []float64) {
	p.j = -(1 + 3*y[0]*y[0] - math.Cos(t)*math.Cos(t))
	dfdt[0], dfdt[1] = 0, -y[0]*math.Sin(2*t)
}

func (p *pendulum) Factor(g float64) bool { p.g = g; return true }

func (p *pendulum) Solve(x []float64) {
	det := p.g*p.g - p.j
	x[0], x[1] = (p.g*x[0]+x[1])/det, (p.j*x[0]+p.g*x[1])/det
}

// TestStiff follows a slow solution drawn by modes up to a million times as fast,
// from a start off it: the error stays within ten times the tolerance of a step and
// the steps do not follow the fast mode once it has died.
func TestStiff(t *testing.T) {
	for _, lambda := range []float64{-1e2, -1e4, -1e6} {
		s := New(&drawn{lambda: lambda}, Tolerance{Abs: []float64{1e-6, 1e-6}, Origin: []float64{0, 0}})
		s.Start(0, []float64{1, 0.5}, 0.1)
		for s.T() < 3 {
			if err := s.Step(3); err != nil {
				t.Fatal(err)
			}
		}
		want := math.Exp(-3) * lambda / (lambda + 1)
		if d := math.Abs(s.Y()[1] - want); !(d <= 1e-5) || s.Steps() > 300 {
			t.Errorf("λ = %g: off by %.2g after %d steps", lambda, d, s.Steps())
		}
	}
}

// TestRiseIsTheSlope differences the continuous extension.
func TestRiseIsTheSlope(t *testing.T) {
	s := New(logistic(), Tolerance{Rel: 1e-6, Abs: []float64{1e-9}, Origin: []float64{0}})
	s.Start(0, []float64{0.1}, 0.2)
	if err := s.Step(3); err != nil {
		t.Fatal(err)
	}
	const d = 1e-4
	for _, x := range []float64{0.1, 0.5, 0.9} {
		at := s.Before() + x*(s.T()-s.Before())
		want := (s.Value(0, at+d) - s.Value(0, at-d)) / (2 * d)
		// A central difference errs by d²/6 of a third derivative below 10.
		if got := s.Rise(0, at); !(math.Abs(got-want) <= 1e-7) {
			t.Errorf("at %g the slope is %.9g, differenced %.9g", at, got, want)
		}
	}
}

// TestFailures: a budget, a system that never factors and a slope that is no
// number end a run with the cause and the last good time.
func TestFailures(t *testing.T) {
	broken := logistic()
	broken.f = func(t, _ float64) float64 { return math.NaN() }
	for _, c := range []struct {
		name   string
		system System
		budget int
		cause  error
	}{
		{"budget", logistic(), 2, ode.ErrBudget},
		{"no factors", unsolvable{}, 0, ode.ErrStep},
		{"not finite", broken, 0, ode.ErrNotFinite},
	} {
		s := New(c.system, Tolerance{Abs: []float64{1e-9}, Origin: []float64{0}})
		s.Budget = c.budget
		s.Start(1, []float64{0.1}, 1e-3)
		var err error
		for s.T() < 100 && err == nil {
			err = s.Step(100)
		}
		var failed *Error
		if !errors.As(err, &failed) || !errors.Is(err, c.cause) || !(failed.T >= 1) {
			t.Errorf("%s: %v, want %v", c.name, err, c.cause)
		}
	}
}

type unsolvable struct{}

func (unsolvable) Derivative(_ float64, _, dydt []float64)   { dydt[0] = 1 }
func (unsolvable) Linearise(_ float64, _, _, dfdt []float64) { dfdt[0] = 0 }
func (unsolvable) Factor(float64) bool                       { return false }
func (unsolvable) Solve([]float64)                           {}
