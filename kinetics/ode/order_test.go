package ode

import (
	"math"
	"testing"
)

// logistic is y' = y(1 − y)(1 + sin t), nonlinear and with t on its own so that
// wrong nodes show; its solution is logit y = logit y(0) + t + 1 − cos t.
var logistic = Func(func(t float64, y, dydt []float64) {
	dydt[0] = y[0] * (1 - y[0]) * (1 + math.Sin(t))
})

const logisticStart = 0.1

func logisticExact(t float64) float64 {
	u := math.Log(logisticStart/(1-logisticStart)) + t + 1 - math.Cos(t)
	return 1 / (1 + math.Exp(-u))
}

// fixedStep takes one step of size h without step control.
func fixedStep(s *Solver, h float64) {
	s.try(h)
	s.accept(h, 1, math.Inf(1), false)
}

func newLogistic(t float64) *Solver {
	s := New(logistic, Tolerance{Abs: []float64{1}})
	s.Start(t, []float64{logisticExact(t)})
	return s
}

// observedOrder is the mean slope of ln(error) over ln(h) for errors at steps
// that halve.
func observedOrder(errs []float64) float64 {
	n := len(errs) - 1
	return math.Log2(errs[0]/errs[n]) / float64(n)
}

// orbit is the two-body problem; from perihelion 1 − e it closes after 2π.
var orbit = Func(func(_ float64, y, dydt []float64) {
	r := math.Hypot(y[0], y[1])
	dydt[0], dydt[1] = y[2], y[3]
	dydt[2], dydt[3] = -y[0]/(r*r*r), -y[1]/(r*r*r)
})

// TestMethodHasOrderFive halves fixed steps over one period of an orbit, which
// neither damps errors nor lets them change sign as the logistic curve does. An
// order is where the slope tends to; at these steps the next term of the error
// still shows, for which 0.2 is allowed. An order of 4 or 6 would be five times
// that away.
func TestMethodHasOrderFive(t *testing.T) {
	const e = 0.1
	start := []float64{1 - e, 0, 0, math.Sqrt((1 + e) / (1 - e))}
	var errs []float64
	for n := 100; n <= 800; n *= 2 {
		s := New(orbit, Tolerance{Abs: []float64{1, 1, 1, 1}})
		s.Start(0, start)
		for range n {
			fixedStep(s, 2*math.Pi/float64(n))
		}
		errs = append(errs, math.Hypot(s.y[0]-start[0], s.y[1]-start[1]))
	}
	if got := observedOrder(errs); !(math.Abs(got-5) <= 0.2) {
		t.Errorf("order %.3f, want 5; errors %.3g", got, errs)
	}
}

// TestErrorEstimateHasOrderFive: the difference of both members of the pair is
// the local error of the fourth-order one, so it falls with h^5.
func TestErrorEstimateHasOrderFive(t *testing.T) {
	var errs []float64
	for h := 0.2; h > 0.01; h /= 2 {
		errs = append(errs, newLogistic(0.5).try(h))
	}
	if got := observedOrder(errs); !(math.Abs(got-5) <= 0.2) {
		t.Errorf("order %.3f, want 5; estimates %.3g", got, errs)
	}
}

// denseErrors are the largest errors of value and slope inside one step of size
// h from exact starts along the solution.
func denseErrors(h float64) (value, slope float64) {
	y, d, want := make([]float64, 1), make([]float64, 1), make([]float64, 1)
	for start := 0.0; start < 3; start += 0.25 {
		s := newLogistic(start)
		fixedStep(s, h)
		for x := 0.05; x < 1; x += 0.05 {
			at := start + x*h
			s.At(at, y)
			s.SlopeAt(at, d)
			exact := logisticExact(at)
			logistic(at, []float64{exact}, want)
			value = math.Max(value, math.Abs(y[0]-exact))
			slope = math.Max(slope, math.Abs(d[0]-want[0]))
		}
	}
	return value, slope
}

// TestDenseOutputHasOrderFour: an extension of order 4 is wrong by h^5 inside
// one step from an exact start, and its derivative by h^4. A cubic Hermite
// polynomial, one order less, would be caught.
func TestDenseOutputHasOrderFour(t *testing.T) {
	var values, slopes []float64
	for h := 0.2; h > 0.01; h /= 2 {
		v, d := denseErrors(h)
		values, slopes = append(values, v), append(slopes, d)
	}
	if got := observedOrder(values); !(math.Abs(got-5) <= 0.2) {
		t.Errorf("local error of the value falls with h^%.3f, want 5; errors %.3g", got, values)
	}
	if got := observedOrder(slopes); !(math.Abs(got-4) <= 0.2) {
		t.Errorf("local error of the slope falls with h^%.3f, want 4; errors %.3g", got, slopes)
	}
}

// TestDenseOutputOverAWholeRun: along a run the extension keeps at least order
// 4, the accumulated error of the method included.
func TestDenseOutputOverAWholeRun(t *testing.T) {
	y := make([]float64, 1)
	var errs []float64
	for n := 15; n <= 240; n *= 2 {
		s, worst := newLogistic(0), 0.0
		for range n {
			fixedStep(s, 3/float64(n))
			for _, x := range []float64{0.2, 0.4, 0.6, 0.8} {
				at := s.tPrev + x*(s.t-s.tPrev)
				s.At(at, y)
				worst = math.Max(worst, math.Abs(y[0]-logisticExact(at)))
			}
		}
		errs = append(errs, worst)
	}
	if got := observedOrder(errs); !(got >= 3.8) {
		t.Errorf("order %.3f, want at least 4; errors %.3g", got, errs)
	}
}

// TestDenseOutputMeetsBothEnds: value and slope of the extension are those of
// the step at its ends, to rounding.
func TestDenseOutputMeetsBothEnds(t *testing.T) {
	s := newLogistic(0.5)
	before := s.k1[0]
	fixedStep(s, 0.25)
	y := make([]float64, 1)
	for _, c := range []struct {
		what      string
		of        func(float64, []float64)
		at, wants float64
	}{
		{"value", s.At, s.tPrev, s.yPrev[0]},
		{"value", s.At, s.t, s.y[0]},
		{"slope", s.SlopeAt, s.tPrev, before},
		{"slope", s.SlopeAt, s.t, s.k1[0]},
	} {
		c.of(c.at, y)
		if !(math.Abs(y[0]-c.wants) <= 1e-14) {
			t.Errorf("%s at %g is %.17g, want %.17g", c.what, c.at, y[0], c.wants)
		}
	}
}
