package rosenbrock

import "math"

// Constants of the step control: a step is taken somewhat shorter than the error
// allows and never changes by more than a factor.
const (
	safety   = 0.9
	smallest = 0.2
	largest  = 5.0
	roundoff = 0x1p-52
)

// accept moves to the end of the step just tried and chooses the next one by
// proportional-integral control.
func (s *Solver) accept(h, e, end float64, last bool) {
	e = math.Max(e, 1e-4)
	grow := safety * math.Pow(e, -0.7/order) * math.Pow(s.errPrev, 0.4/order)
	grow = math.Min(largest, math.Max(smallest, grow))
	if s.rejected {
		grow = math.Min(grow, 1)
	}
	s.rejected, s.linear, s.errPrev = false, false, e
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
	s.prepareDense()
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
