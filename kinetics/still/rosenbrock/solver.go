package rosenbrock

import (
	"fmt"
	"math"

	"potlife/kinetics/ode"
)

// A System is dy/dt = f(t, y) that can solve with its own Jacobian J = ∂f/∂y, by
// whatever structure J has.
type System interface {
	// Derivative writes f into dydt and must not keep or change y.
	Derivative(t float64, y, dydt []float64)
	// Linearise keeps J at (t, y), where f is dydt, and writes ∂f/∂t.
	Linearise(t float64, y, dydt, dfdt []float64)
	// Factor prepares g·I − J; false when the system cannot solve with it, which
	// a larger g mends.
	Factor(g float64) bool
	// Solve replaces x by the solution of (g·I − J)·solution = x.
	Solve(x []float64)
}

// DefaultBudget is the number of steps, tried and accepted, that a run may take
// between two calls of [Solver.Start] unless [Solver.Budget] says otherwise.
const DefaultBudget = 20_000

// Constants of the step control: a step is taken somewhat shorter than the error
// allows and never changes by more than a factor.
const (
	safety   = 0.9
	smallest = 0.2
	largest  = 5.0
	roundoff = 0x1p-52
)

// A Solver advances one system step by step. It allocates in [New] only. It is
// not safe for concurrent use.
type Solver struct {
	Budget int // steps allowed after Start; 0 means DefaultBudget

	system System
	method *Tableau
	tol    Tolerance

	t, tPrev, h          float64
	y, yPrev, yTry       []float64
	f, fPrev, fTry, dfdt []float64
	stage                []float64
	u                    [][]float64
	dense                [][]float64

	errPrev     float64
	rejected    bool
	linear      bool // J is that at t
	steps       int
	evaluations int
}

// Tolerance bounds the local error of a step in every component i by
// Abs[i] + Rel·|y[i] − Origin[i]|.
type Tolerance struct {
	Rel         float64
	Abs, Origin []float64 // of the system's length
}

// New returns a solver for system, which has len(tol.Abs) components. The caller
// may change the origin before each start.
func New(system System, method *Tableau, tol Tolerance) *Solver {
	s := &Solver{system: system, method: method, tol: tol}
	take := func() []float64 { return make([]float64, len(tol.Abs)) }
	for _, p := range []*[]float64{&s.y, &s.yPrev, &s.yTry, &s.f, &s.fPrev, &s.fTry, &s.dfdt, &s.stage} {
		*p = take()
	}
	for range method.stages() {
		s.u = append(s.u, take())
	}
	for range method.dense {
		s.dense = append(s.dense, take())
	}
	return s
}

// Start sets the time and the state, and a first step to try; 0 keeps the last
// one or, if there is none, guesses.
func (s *Solver) Start(t float64, y []float64, step float64) {
	s.t, s.tPrev = t, t
	copy(s.y, y)
	copy(s.yPrev, y)
	if step > 0 {
		s.h = step
	}
	s.rejected, s.linear, s.steps, s.errPrev = false, false, 0, 1
	s.evaluate(t, s.y, s.f)
}

// T is the time reached.
func (s *Solver) T() float64 { return s.t }

// Before is the time at which the last step began.
func (s *Solver) Before() float64 { return s.tPrev }

// Y is the state at [Solver.T], the solver's own: copy it to keep it.
func (s *Solver) Y() []float64 { return s.y }

// YBefore is the state at [Solver.Before], the solver's own.
func (s *Solver) YBefore() []float64 { return s.yPrev }

// Slope is f at [Solver.T], the solver's own.
func (s *Solver) Slope() []float64 { return s.f }

// SlopeBefore is f at [Solver.Before], the solver's own.
func (s *Solver) SlopeBefore() []float64 { return s.fPrev }

// Steps is the number of steps tried since [Solver.Start].
func (s *Solver) Steps() int { return s.steps }

// Evaluations is the number of right-hand sides computed since [New], those for
// the Jacobian apart.
func (s *Solver) Evaluations() int { return s.evaluations }

func (s *Solver) evaluate(t float64, y, dydt []float64) {
	s.evaluations++
	s.system.Derivative(t, y, dydt)
}

// Step takes one accepted step towards end, never past it. The error is an
// [*Error]; the state then is the last good one.
func (s *Solver) Step(end float64) error {
	if !(s.t < end) {
		return nil
	}
	if !finite(s.y) || !finite(s.f) {
		return s.fail(ode.ErrNotFinite)
	}
	if !(s.h > 0) {
		s.h = s.firstStep(end)
	}
	budget := s.Budget
	if budget == 0 {
		budget = DefaultBudget
	}
	for {
		if s.steps >= budget {
			return s.fail(ode.ErrBudget)
		}
		s.steps++
		h, last := s.h, false
		// A remainder of less than a tenth of a step is taken along.
		if s.t+1.1*h >= end {
			h, last = end-s.t, true
		}
		if !last && h <= 4*roundoff*math.Abs(s.t) {
			return s.fail(ode.ErrStep)
		}
		e := s.try(h)
		if e <= 1 {
			s.accept(h, e, end, last)
			return nil
		}
		shrink := 0.25 // NaN, or no factors
		if e < 1e30 {
			shrink = math.Max(smallest, safety*math.Pow(e, -1/s.method.order))
		}
		s.h, s.rejected = h*shrink, true
	}
}

// try computes the stages of a step h and returns the scaled error, 1 being just
// acceptable.
func (s *Solver) try(h float64) float64 {
	m := s.method
	if !s.linear {
		s.system.Linearise(s.t, s.y, s.f, s.dfdt)
		s.linear = true
	}
	if !s.system.Factor(1 / (m.gamma * h)) {
		return math.NaN()
	}
	for k := range m.nodes {
		b := s.u[k]
		if k == 0 {
			copy(b, s.f)
		} else {
			combine(s.stage, s.y, m.a[k], s.u, 1)
			s.evaluate(s.t+m.nodes[k]*h, s.stage, b)
			combine(b, b, m.c[k], s.u, 1/h)
		}
		if w := m.slope[k] * h; w != 0 {
			for i, d := range s.dfdt {
				b[i] += w * d
			}
		}
		s.system.Solve(b)
	}
	return s.judge(s.u[len(m.nodes)-1])
}

// judge completes the step by the last stage and returns the largest scaled
// error.
func (s *Solver) judge(final []float64) float64 {
	worst := 0.0
	for i, e := range final {
		s.yTry[i] = s.stage[i] + e
		from := s.tol.Origin[i]
		far := max(math.Abs(s.y[i]-from), math.Abs(s.yTry[i]-from))
		if e = math.Abs(e) / (s.tol.Abs[i] + s.tol.Rel*far); !(e <= worst) {
			if e != e {
				return e
			}
			worst = e
		}
	}
	return worst
}

// combine writes base + scale·Σ weight_j·u_j into to, which may be base.
func combine(to, base, weight []float64, u [][]float64, scale float64) {
	from := base
	j := 0
	// Two at a time: one pass over memory for both.
	for ; j+1 < len(weight); j += 2 {
		p, q := scale*weight[j], scale*weight[j+1]
		x, z := u[j][:len(to)], u[j+1][:len(to)]
		from = from[:len(to)]
		for i := range to {
			to[i] = from[i] + (p*x[i] + q*z[i])
		}
		from = to
	}
	if j < len(weight) {
		p, x := scale*weight[j], u[j][:len(to)]
		from = from[:len(to)]
		for i := range to {
			to[i] = from[i] + p*x[i]
		}
	}
}

// accept moves to the end of the step just tried and chooses the next one by
// proportional-integral control.
func (s *Solver) accept(h, e, end float64, last bool) {
	p := s.method.order
	e = math.Max(e, 1e-4)
	grow := safety * math.Pow(e, -0.7/p) * math.Pow(s.errPrev, 0.4/p)
	grow = math.Min(largest, math.Max(smallest, grow))
	if s.rejected {
		grow = math.Min(grow, 1)
	}
	s.rejected, s.linear, s.errPrev = false, false, e
	s.prepareDense()
	s.y, s.yPrev, s.yTry = s.yTry, s.y, s.yPrev
	s.f, s.fPrev = s.fPrev, s.f
	s.tPrev = s.t
	if last {
		s.t = end
		// A step cut short by the end says little about the next.
		s.h = math.Max(s.h, h*grow)
	} else {
		s.t += h
		s.h = h * grow
	}
	s.evaluate(s.t, s.y, s.f)
}

// firstStep is a guess: the state may change by its tolerance's tenth root.
func (s *Solver) firstStep(end float64) float64 {
	fastest := 0.0
	for i, f := range s.f {
		fastest = math.Max(fastest, math.Abs(f)/(s.tol.Abs[i]+s.tol.Rel*math.Abs(s.y[i]-s.tol.Origin[i])))
	}
	if !(fastest > 0) {
		return end - s.t
	}
	return math.Min(end-s.t, 10/fastest)
}

func (s *Solver) fail(cause error) error { return &Error{Cause: cause, T: s.t, Steps: s.steps} }

// An Error names the time at which an integration failed; its cause is one of
// the sentinels of package ode.
type Error struct {
	Cause error
	T     float64 // time of the last good point, in the caller's unit
	Steps int     // steps tried since Start
}

func (e *Error) Error() string {
	return fmt.Sprintf("integration stopped at t = %g after %d steps: %v", e.T, e.Steps, e.Cause)
}

func (e *Error) Unwrap() error { return e.Cause }

func finite(v []float64) bool {
	for _, x := range v {
		if x-x != 0 { // true for NaN and infinities only
			return false
		}
	}
	return true
}
