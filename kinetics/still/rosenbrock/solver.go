package rosenbrock

import (
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

// A Solver advances one system step by step. It allocates in [New] only. It is
// not safe for concurrent use.
type Solver struct {
	Budget int // steps allowed after Start; 0 means DefaultBudget

	system System
	tol    Tolerance

	t, tPrev, h    float64
	y, yPrev, yTry []float64
	f, fPrev, dfdt []float64
	stage, wrong   []float64
	u              [][]float64
	bend, twist    []float64

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
func New(system System, tol Tolerance) *Solver {
	s := &Solver{system: system, tol: tol}
	take := func() []float64 { return make([]float64, len(tol.Abs)) }
	for _, p := range []*[]float64{&s.y, &s.yPrev, &s.yTry, &s.f, &s.fPrev, &s.dfdt, &s.stage, &s.wrong, &s.bend, &s.twist} {
		*p = take()
	}
	for range stages {
		s.u = append(s.u, take())
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
			shrink = math.Max(smallest, safety*math.Pow(e, -1.0/order))
		}
		s.h, s.rejected = h*shrink, true
	}
}

// try computes the stages of a step h and returns the scaled error, 1 being just
// acceptable.
func (s *Solver) try(h float64) float64 {
	if !s.linear {
		s.system.Linearise(s.t, s.y, s.f, s.dfdt)
		s.linear = true
	}
	if !s.system.Factor(1 / (gamma * h)) {
		return math.NaN()
	}
	for k, b := range s.u {
		switch k {
		case 0:
			copy(b, s.f)
		case stages - 1: // at the place of the stage before
			copy(b, s.wrong)
		default:
			combine(s.stage, s.y, toState[k], s.u, 1)
			s.evaluate(s.t+nodes[k]*h, s.stage, b)
			copy(s.wrong, b)
		}
		combine(b, b, toStage[k], s.u, 1/h)
		for i, d := range s.dfdt {
			b[i] += timeSlope[k] * h * d
		}
		s.system.Solve(b)
	}
	combine(s.yTry, s.y, stepWeights, s.u, 1)
	clear(s.wrong)
	combine(s.wrong, s.wrong, errorWeights, s.u, 1)
	return s.judge()
}

// judge returns the largest scaled error.
func (s *Solver) judge() float64 {
	worst := 0.0
	for i, e := range s.wrong {
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

func finite(v []float64) bool {
	for _, x := range v {
		if x-x != 0 { // true for NaN and infinities only
			return false
		}
	}
	return true
}
