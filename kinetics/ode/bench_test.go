package ode_test

import (
	"testing"

	"potlife/kinetics/ode"
)

// BenchmarkStep is one accepted step of a system of two, its own right-hand side
// all but free.
func BenchmarkStep(b *testing.B) {
	s := newOscillator(1e-6)
	s.Budget = 1 << 60
	b.ReportAllocs()
	for b.Loop() {
		if err := s.Step(1e18); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOrbit is one period of a Kepler orbit at a tolerance of 1e-8.
func BenchmarkOrbit(b *testing.B) {
	s := ode.New(kepler, ode.Tolerance{Rel: 1e-8, Abs: []float64{1e-8, 1e-8, 1e-8, 1e-8}})
	start := []float64{0.5, 0, 0, 1.7320508075688772}
	b.ReportAllocs()
	for b.Loop() {
		s.Start(0, start)
		if err := advance(s, 6.283185307179586); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.Steps()), "steps/op")
}
