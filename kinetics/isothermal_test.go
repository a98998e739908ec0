package kinetics_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/ode"
)

const (
	minute = 60.0
	hour   = 3600.0
	day    = 86400.0
)

// rate is dα/dt in 1/s at one temperature.
type rate func(alpha float64) float64

// of gives the rate of a law at a temperature.
func of(law kinetics.RateLaw, kelvin float64) rate {
	return func(alpha float64) float64 { return law.Rate(alpha, kelvin) }
}

// cureRate gives the rate of a whole resin, vitrification included.
func cureRate(r kinetics.Resin, kelvin float64) rate {
	return func(alpha float64) float64 { return r.CureRate(alpha, kelvin) }
}

// newCure integrates a rate from alpha, so tightly that what a check sees is the
// law and not the integrator: errors of a step of 1e-12 in conversion.
func newCure(f rate, alpha float64) *ode.Solver {
	s := ode.New(ode.Func(func(_ float64, y, dydt []float64) { dydt[0] = f(y[0]) }), ode.Tolerance{Abs: []float64{1e-12}})
	s.Start(0, []float64{alpha})
	return s
}

// conversion is α after seconds.
func conversion(t *testing.T, f rate, alpha, seconds float64) float64 {
	t.Helper()
	s := newCure(f, alpha)
	for s.T() < seconds {
		if err := s.Step(seconds); err != nil {
			t.Fatal(err)
		}
	}
	return s.Y()[0]
}

// timeTo is the time in s at which α first reaches level from alpha, +Inf when it
// is later than end.
func timeTo(t *testing.T, f rate, alpha, level, end float64) float64 {
	t.Helper()
	s := newCure(f, alpha)
	margin := func(_ float64, y []float64) float64 { return y[0] - level }
	for s.T() < end {
		if err := s.Step(end); err != nil {
			t.Fatal(err)
		}
		if at, found := s.Crossing(margin, s.YBefore()[0]-level, s.Y()[0]-level, make([]float64, 1)); found {
			return at
		}
	}
	return math.Inf(1)
}

// piecewise is α after seconds for a law with breaks: each piece on its own, as
// the interface asks of an integrator.
func piecewise(t *testing.T, law kinetics.RateLaw, kelvin, alpha, seconds float64) float64 {
	t.Helper()
	for i, level := range law.Breaks() {
		needed := timeTo(t, of(law.Piece(i), kelvin), alpha, level, seconds)
		if needed >= seconds {
			return conversion(t, of(law.Piece(i), kelvin), alpha, seconds)
		}
		alpha, seconds = level, seconds-needed
	}
	return conversion(t, of(law.Piece(len(law.Breaks())), kelvin), alpha, seconds)
}
