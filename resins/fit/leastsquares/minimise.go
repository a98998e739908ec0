package leastsquares

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Minimise searches from the problem's start. The error is a problem that cannot
// be searched at all; a search that ends before it has converged is a result
// that says so.
func Minimise(p Problem, o Options) (*Result, error) {
	if len(p.Start) == 0 || p.Count < len(p.Start) {
		return nil, fmt.Errorf("%d residuals cannot tell %d parameters; add residuals", p.Count, len(p.Start))
	}
	scale, err := p.scale()
	if err != nil {
		return nil, err
	}
	s := newSearch(&p, o.withUsual(), scale)
	if err := p.at(s.x, s.r); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStart, err)
	}
	if err := s.differentiate(); err != nil {
		return nil, fmt.Errorf("%w next to it: %w", ErrStart, err)
	}
	s.mu = s.o.Damping
	for s.iterations < s.o.Iterations && !s.done {
		s.iterations++
		if s.o.Seen != nil {
			s.o.Seen(s.iterations)
		}
		if err := s.iterate(); err != nil {
			return nil, err
		}
	}
	return s.result()
}

// A search holds the state of a minimisation. Steps are in units of the scale.
type search struct {
	p     *Problem
	o     Options
	scale []float64

	x, r          []float64
	columns       [][]float64 // J·diag(scale)
	d             []float64   // D of (1)
	mu, nu        float64
	iterations    int
	done          bool
	followed      int // steps since J was differenced
	trial, trialR []float64
	above, below  []float64
}

func newSearch(p *Problem, o Options, scale []float64) *search {
	n, m := len(p.Start), p.Count
	s := &search{
		p: p, o: o, scale: scale, nu: 2,
		x: append([]float64(nil), p.Start...), r: make([]float64, m),
		columns: make([][]float64, n), d: make([]float64, n),
		trial: make([]float64, n), trialR: make([]float64, m),
		above: make([]float64, m), below: make([]float64, m),
	}
	for i := range s.columns {
		s.columns[i] = make([]float64, m)
	}
	return s
}

func (s *search) differentiate() error {
	s.followed = 0
	if err := s.p.differences(s.x, s.scale, s.columns); err != nil {
		return err
	}
	for i, column := range s.columns {
		s.d[i] = math.Max(s.d[i], norm(column))
		if s.d[i] == 0 || s.o.Even {
			s.d[i] = 1
		}
	}
	return nil
}

// iterate tries one step.
func (s *search) iterate() error {
	if s.flat() {
		s.done = true
		return nil
	}
	step, promised, err := s.step(s.r)
	if err != nil {
		return err
	}
	before := half(s.r)
	tiny := s.o.Reduction*before + s.o.Enough
	small := s.weighted(step) <= s.o.Move*(s.o.Move+s.weightedX())
	moved, trusted := step, true
	if !s.o.Plain && !small {
		moved, trusted = s.accelerated(step)
	}
	now := math.Inf(1)
	if trusted && s.take(moved) {
		now = half(s.trialR)
	}
	gain := (before - now) / promised
	if !(now < before) {
		// Rounding alone keeps a minimum from being improved upon.
		s.done = small || promised <= tiny || math.IsInf(s.mu, 1)
		if s.followed > 0 && !s.done {
			return s.differentiate()
		}
		s.mu *= s.nu
		s.nu *= 2
		return nil
	}
	if s.followed < s.o.Secant {
		s.follow()
	} else {
		s.followed = s.o.Secant + 1
	}
	copy(s.x, s.trial)
	copy(s.r, s.trialR)
	s.mu *= math.Max(1.0/3, 1-math.Pow(2*gain-1, 3)) // (3)
	s.nu = 2
	s.done = small || now == 0 || before-now <= tiny && promised <= tiny
	if s.followed > s.o.Secant {
		return s.differentiate()
	}
	return nil
}

// follow takes J along to the trial by (5).
func (s *search) follow() {
	s.followed++
	moved := make([]float64, len(s.x))
	for i := range moved {
		moved[i] = (s.trial[i] - s.x[i]) / s.scale[i]
	}
	length := dot(moved, moved)
	for k := range s.r {
		off := s.trialR[k] - s.r[k]
		for i, column := range s.columns {
			off -= column[k] * moved[i]
		}
		for i, column := range s.columns {
			column[k] += off * moved[i] / length
		}
	}
}

// flat tells that no column of J leans on the residuals.
func (s *search) flat() bool {
	size := norm(s.r)
	if size == 0 {
		return true
	}
	for _, column := range s.columns {
		if length := norm(column); length > 0 && math.Abs(dot(column, s.r)) > s.o.Slope*length*size {
			return false
		}
	}
	return true
}

// step solves (1) for the residuals r and returns what the linear model promises
// to take off ½|r|².
func (s *search) step(r []float64) ([]float64, float64, error) {
	n, m := len(s.x), len(r)
	a, b := mat.NewDense(m+n, n, nil), mat.NewVecDense(m+n, nil)
	for i, column := range s.columns {
		for k, v := range column {
			a.Set(k, i, v)
		}
		a.Set(m+i, i, math.Sqrt(s.mu)*s.d[i])
	}
	for k, v := range r {
		b.SetVec(k, -v)
	}
	var qr mat.QR
	qr.Factorize(a)
	x := mat.NewVecDense(n, nil)
	if err := qr.SolveVecTo(x, false, b); err != nil {
		if _, ill := err.(mat.Condition); !ill {
			return nil, 0, fmt.Errorf("a step of the least squares: %w", err)
		}
	}
	step := x.RawVector().Data
	promised := 0.0
	for i, column := range s.columns {
		promised += step[i] * (s.mu*s.d[i]*s.d[i]*step[i] - dot(column, r))
	}
	return step, promised / 2, nil
}

// accelerated adds half the acceleration of (2) to a step; false where the
// acceleration is too large for the step to be trusted.
func (s *search) accelerated(step []float64) ([]float64, bool) {
	const h = 0.1
	for i := range s.trial {
		s.trial[i] = s.x[i] + h*step[i]*s.scale[i]
	}
	if s.p.at(s.trial, s.above) != nil {
		return step, false
	}
	for i := range s.trial {
		s.trial[i] = s.x[i] - h*step[i]*s.scale[i]
	}
	if s.p.at(s.trial, s.below) != nil {
		return step, true
	}
	bend := make([]float64, len(s.r))
	for k := range bend {
		bend[k] = (s.above[k] - 2*s.r[k] + s.below[k]) / (h * h)
	}
	acceleration, _, err := s.step(bend)
	if err != nil || !(2*s.weighted(acceleration) <= 0.75*s.weighted(step)) {
		return step, false
	}
	moved := make([]float64, len(step))
	for i := range moved {
		moved[i] = step[i] + acceleration[i]/2
	}
	return moved, true
}

// take computes the residuals a step away; false where they cannot be.
func (s *search) take(step []float64) bool {
	for i := range s.trial {
		s.trial[i] = s.x[i] + step[i]*s.scale[i]
	}
	return s.p.at(s.trial, s.trialR) == nil
}

func (s *search) weighted(step []float64) float64 {
	sum := 0.0
	for i, v := range step {
		sum += s.d[i] * v * s.d[i] * v
	}
	return math.Sqrt(sum)
}

func (s *search) weightedX() float64 {
	sum := 0.0
	for i, v := range s.x {
		w := s.d[i] * v / s.scale[i]
		sum += w * w
	}
	return math.Sqrt(sum)
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

func half(r []float64) float64 { return dot(r, r) / 2 }
