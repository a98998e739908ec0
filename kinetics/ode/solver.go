package ode

import "math"

// A System is the right-hand side of dy/dt = f(t, y). Derivative writes f into
// dydt and must not keep or change y. Both have the length given to [New].
type System interface {
	Derivative(t float64, y, dydt []float64)
}

// Func lets an ordinary function serve as a [System].
type Func func(t float64, y, dydt []float64)

// Derivative calls f.
func (f Func) Derivative(t float64, y, dydt []float64) { f(t, y, dydt) }

// Tolerance bounds the local error of component i of one step by
// Abs[i] + Rel·|y[i]|, in the root-mean-square over the components.
type Tolerance struct {
	Rel float64   // dimensionless
	Abs []float64 // in the unit of each component; its length is the system's
}

// DefaultBudget is the number of steps, tried and accepted, that a run may take
// between two calls of [Solver.Start] unless [Solver.Budget] says otherwise.
const DefaultBudget = 20_000

// A Solver advances one system step by step. It allocates in [New] only, so one
// solver can run thousands of baths. It is not safe for concurrent use.
type Solver struct {
	Budget int // steps allowed after Start; 0 means DefaultBudget

	system System
	tol    Tolerance
	n      int

	t, tPrev, h        float64
	y, yPrev, yTry     []float64
	k1, k2, k3, k4, k5 []float64
	k6, k7             []float64
	dense              [5][]float64
	denseReady         bool

	errPrev     float64
	rejected    bool
	steps       int
	evaluations int
}

// New returns a solver for system, which has len(tol.Abs) components.
func New(system System, tol Tolerance) *Solver {
	n := len(tol.Abs)
	store := make([]float64, 15*n)
	take := func() []float64 {
		part := store[:n:n]
		store = store[n:]
		return part
	}
	s := &Solver{system: system, tol: tol, n: n}
	for _, p := range []*[]float64{&s.y, &s.yPrev, &s.yTry, &s.k1, &s.k2, &s.k3, &s.k4, &s.k5, &s.k6, &s.k7} {
		*p = take()
	}
	for i := range s.dense {
		s.dense[i] = take()
	}
	return s
}

// Start sets the time and the state and forgets the step size. Call it first,
// and again wherever the right-hand side has a kink or the state jumps.
func (s *Solver) Start(t float64, y []float64) {
	s.t, s.tPrev, s.h = t, t, 0
	copy(s.y, y)
	copy(s.yPrev, y)
	s.denseReady = false
	s.errPrev = errorFloorOfPreviousAccepted
	s.rejected = false
	s.steps = 0
	s.evaluate(t, s.y, s.k1)
}

// Restart is [Solver.Start] that keeps the last step size as its first guess,
// for a jump that leaves the time scales as they were.
func (s *Solver) Restart(t float64, y []float64) {
	h := s.h
	s.Start(t, y)
	s.h = h
}

// StartWith is [Solver.Start] with a first step to try instead of the guess that
// costs an evaluation. A step too long is rejected like any other.
func (s *Solver) StartWith(t float64, y []float64, step float64) {
	s.Start(t, y)
	s.h = step
}

// T is the time reached, in the caller's unit.
func (s *Solver) T() float64 { return s.t }

// Before is the time at which the last step began.
func (s *Solver) Before() float64 { return s.tPrev }

// Y is the state at [Solver.T]. It is the solver's own: copy it to keep it.
func (s *Solver) Y() []float64 { return s.y }

// YBefore is the state at [Solver.Before], the solver's own.
func (s *Solver) YBefore() []float64 { return s.yPrev }

// Slope is dy/dt at [Solver.T], the solver's own.
func (s *Solver) Slope() []float64 { return s.k1 }

// Steps is the number of steps tried since [Solver.Start].
func (s *Solver) Steps() int { return s.steps }

// Evaluations is the number of right-hand sides computed since [New].
func (s *Solver) Evaluations() int { return s.evaluations }

func (s *Solver) evaluate(t float64, y, dydt []float64) {
	s.evaluations++
	s.system.Derivative(t, y, dydt)
}

// Step takes one accepted step towards end, never past it. At end it does
// nothing. The error is an [*Error]; the state then is the last good one.
func (s *Solver) Step(end float64) error {
	if !(s.t < end) {
		return nil
	}
	if !finite(s.y) || !finite(s.k1) {
		return s.fail(ErrNotFinite)
	}
	if s.h <= 0 {
		s.h = s.firstStep(end)
	}
	budget := s.Budget
	if budget == 0 {
		budget = DefaultBudget
	}
	for {
		if s.steps >= budget {
			return s.fail(ErrBudget)
		}
		s.steps++
		h, last := s.h, false
		// A remainder of less than a tenth of a step is taken along.
		if s.t+1.1*h >= end {
			h, last = end-s.t, true
		}
		// An end a few bits away is no failure: two times computed on different
		// ways may differ by rounding.
		if !last && (h <= 4*roundoff*math.Abs(s.t) || h < 1e-290) {
			return s.fail(ErrStep)
		}
		e := s.try(h)
		if !(e < 1e30) { // NaN, or a trial far outside the law's domain
			s.h, s.rejected = h/10, true
			continue
		}
		if e > 1 {
			s.h, s.rejected = h*math.Max(smallest, safety*math.Pow(e, -proportionalGain)), true
			continue
		}
		s.accept(h, e, end, last)
		return nil
	}
}

// try computes the stages for a step h and returns the scaled error, 1 being
// just acceptable.
func (s *Solver) try(h float64) float64 {
	y, w := s.y, s.yTry
	k1, k2, k3, k4, k5, k6, k7 := s.k1, s.k2, s.k3, s.k4, s.k5, s.k6, s.k7
	for i := range y {
		w[i] = y[i] + h*a21*k1[i]
	}
	s.evaluate(s.t+c2*h, w, k2)
	for i := range y {
		w[i] = y[i] + h*(a31*k1[i]+a32*k2[i])
	}
	s.evaluate(s.t+c3*h, w, k3)
	for i := range y {
		w[i] = y[i] + h*(a41*k1[i]+a42*k2[i]+a43*k3[i])
	}
	s.evaluate(s.t+c4*h, w, k4)
	for i := range y {
		w[i] = y[i] + h*(a51*k1[i]+a52*k2[i]+a53*k3[i]+a54*k4[i])
	}
	s.evaluate(s.t+c5*h, w, k5)
	for i := range y {
		w[i] = y[i] + h*(a61*k1[i]+a62*k2[i]+a63*k3[i]+a64*k4[i]+a65*k5[i])
	}
	s.evaluate(s.t+h, w, k6)
	for i := range y {
		w[i] = y[i] + h*(a71*k1[i]+a73*k3[i]+a74*k4[i]+a75*k5[i]+a76*k6[i])
	}
	s.evaluate(s.t+h, w, k7)
	sum := 0.0
	for i := range y {
		scale := s.tol.Abs[i] + s.tol.Rel*math.Max(math.Abs(y[i]), math.Abs(w[i]))
		e := h * (e1*k1[i] + e3*k3[i] + e4*k4[i] + e5*k5[i] + e6*k6[i] + e7*k7[i]) / scale
		sum += e * e
	}
	return math.Sqrt(sum / float64(s.n))
}

// accept moves to the end of the step just tried and chooses the next one by
// proportional-integral control, [2] IV.2.
func (s *Solver) accept(h, e, end float64, last bool) {
	grow := safety * math.Pow(math.Max(e, 1e-10), -proportionalGain) * math.Pow(s.errPrev, integralGain)
	grow = math.Min(largest, math.Max(smallest, grow))
	if s.rejected {
		grow = math.Min(grow, 1)
	}
	s.rejected = false
	s.errPrev = math.Max(e, errorFloorOfPreviousAccepted)
	s.prepareDense(h)
	s.y, s.yPrev, s.yTry = s.yTry, s.y, s.yPrev
	s.k1, s.k7 = s.k7, s.k1
	s.tPrev = s.t
	if last {
		s.t = end
		// A step cut short by the end says little about the next.
		s.h = math.Max(s.h, h*grow)
		return
	}
	s.t += h
	s.h = h * grow
}

// firstStep is the starting guess of [2], II.4, with two evaluations at most.
func (s *Solver) firstStep(end float64) float64 {
	var size, slope float64
	for i := range s.y {
		scale := s.tol.Abs[i] + s.tol.Rel*math.Abs(s.y[i])
		size += square(s.y[i] / scale)
		slope += square(s.k1[i] / scale)
	}
	size, slope = math.Sqrt(size/float64(s.n)), math.Sqrt(slope/float64(s.n))
	guess := (end - s.t) * 1e-6
	if size > 1e-5 && slope > 1e-5 {
		guess = 0.01 * size / slope
	}
	guess = math.Min(guess, end-s.t)
	for i := range s.y {
		s.yTry[i] = s.y[i] + guess*s.k1[i]
	}
	s.evaluate(s.t+guess, s.yTry, s.k2)
	curve := 0.0
	for i := range s.y {
		scale := s.tol.Abs[i] + s.tol.Rel*math.Abs(s.y[i])
		curve += square((s.k2[i] - s.k1[i]) / scale)
	}
	curve = math.Sqrt(curve/float64(s.n)) / guess
	bound := math.Max(slope, curve)
	if !(bound > 1e-15) {
		return math.Min(math.Max(1e-6*(end-s.t), 1e3*guess), end-s.t)
	}
	return math.Min(100*guess, math.Pow(0.01/bound, 1.0/5))
}

func (s *Solver) fail(cause error) error {
	return &Error{Cause: cause, T: s.t, Y: append([]float64(nil), s.y...), Steps: s.steps}
}

func square(x float64) float64 { return x * x }

func finite(v []float64) bool {
	for _, x := range v {
		if x-x != 0 { // true for NaN and infinities only
			return false
		}
	}
	return true
}
