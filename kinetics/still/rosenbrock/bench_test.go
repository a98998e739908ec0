package rosenbrock

import "testing"

// BenchmarkPendulum is a driven pendulum of two unknowns for six seconds: the method itself
// with next to no system.
func BenchmarkPendulum(b *testing.B) {
	s := New(&pendulum{}, Tolerance{Abs: []float64{1e-6, 1e-6}, Origin: []float64{0, 0}})
	start := []float64{1, 0}
	b.ReportAllocs()
	for b.Loop() {
		s.Start(0, start, 0.01)
		for s.T() < 6 {
			if err := s.Step(6); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(s.Steps()), "steps/op")
}
