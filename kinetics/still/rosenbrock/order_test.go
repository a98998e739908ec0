package rosenbrock

import (
	"math"
	"testing"
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

// protheroRobinson is y' = λ(y − cos t) − sin t with the solution cos t, stiff for
// large −λ: A. Prothero, A. Robinson, Math. Comp. 28 (1974) 145-162.
func protheroRobinson(lambda float64) *scalar {
	return &scalar{
		f:  func(t, y float64) float64 { return lambda*(y-math.Cos(t)) - math.Sin(t) },
		fy: func(_, _ float64) float64 { return lambda },
		ft: func(t, _ float64) float64 { return lambda*math.Sin(t) - math.Cos(t) },
	}
}

// errorsOf halves fixed steps and returns the error at the end and the largest
// error of the continuous extension in the middle of a step.
func errorsOf(m *Tableau, s *scalar, exact func(float64) float64, end float64, first int) (ends, middles []float64) {
	for n := first; n <= 8*first; n *= 2 {
		solver := New(s, m, Tolerance{Abs: []float64{1}, Origin: []float64{0}})
		solver.Start(0, []float64{exact(0)}, 1)
		h, middle := end/float64(n), 0.0
		for range n {
			solver.try(h)
			solver.accept(h, 1, math.Inf(1), false)
			for _, x := range []float64{0.25, 0.5, 0.75} {
				t := solver.Before() + x*h
				middle = math.Max(middle, math.Abs(solver.Value(0, t)-exact(t)))
			}
		}
		ends = append(ends, math.Abs(solver.Y()[0]-exact(solver.T())))
		middles = append(middles, middle)
	}
	return ends, middles
}

func observed(errs []float64) float64 {
	n := len(errs) - 1
	return math.Log2(errs[0]/errs[n]) / float64(n)
}

// TestOrder halves steps. An order is where the slope tends to; at these steps
// the next term still shows, for which 0.3 is allowed; a wrong coefficient costs
// at least a whole order.
func TestOrder(t *testing.T) {
	for _, c := range []struct {
		name         string
		method       *Tableau
		order, dense float64
	}{
		{"RODASP", &RODASP, 4, 4},
		{"RODAS5P", &RODAS5P, 5, 5},
	} {
		ends, middles := errorsOf(c.method, logistic(), logisticExact, 3, 40)
		if got := observed(ends); !(math.Abs(got-c.order) <= 0.3) {
			t.Errorf("%s: order %.2f, want %g; errors %.3g", c.name, got, c.order, ends)
		}
		// Between steps the local error of the extension shows: its order and one.
		if got := observed(middles); !(got >= c.dense-0.3) {
			t.Errorf("%s: order %.2f between steps, want %g; errors %.3g", c.name, got, c.dense, middles)
		}
	}
}

// TestProtheroRobinson proves that stiffness takes little order away, the reason
// for these two methods: a classical one falls to order 1 [1, IV.15]. Both are of
// order 3 at least in the stiff limit by their papers' claim; 0.3 as above.
func TestProtheroRobinson(t *testing.T) {
	for name, m := range map[string]*Tableau{"RODASP": &RODASP, "RODAS5P": &RODAS5P} {
		for _, lambda := range []float64{-1e3, -1e6} {
			ends, _ := errorsOf(m, protheroRobinson(lambda), math.Cos, 2, 8)
			if got := observed(ends); !(got >= 2.7) {
				t.Errorf("%s, λ = %g: order %.2f, want 3; errors %.3g", name, lambda, got, ends)
			}
		}
	}
}

// TestRiseIsTheSlope differences the continuous extension.
func TestRiseIsTheSlope(t *testing.T) {
	for _, m := range []*Tableau{&RODASP, &RODAS5P} {
		s := New(logistic(), m, Tolerance{Rel: 1e-6, Abs: []float64{1e-9}, Origin: []float64{0}})
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
}
