package rosenbrock

// prepareDense sets up (5) of the package comment over the step just accepted.
func (s *Solver) prepareDense() {
	h := s.t - s.tPrev
	for i := range s.y {
		rise := s.y[i] - s.yPrev[i]
		s.bend[i] = h*s.fPrev[i] - rise
		s.twist[i] = 2*rise - h*(s.fPrev[i]+s.f[i])
	}
}

// Value returns component i at time t of the last step.
func (s *Solver) Value(i int, t float64) float64 {
	if s.t == s.tPrev {
		return s.y[i]
	}
	x := (t - s.tPrev) / (s.t - s.tPrev)
	return (1-x)*s.yPrev[i] + x*(s.y[i]+(1-x)*(s.bend[i]+x*s.twist[i]))
}

// Rise returns the slope of component i at time t of the last step.
func (s *Solver) Rise(i int, t float64) float64 {
	if s.t == s.tPrev {
		return s.f[i]
	}
	h := s.t - s.tPrev
	x := (t - s.tPrev) / h
	return (s.y[i] - s.yPrev[i] + (1-2*x)*(s.bend[i]+x*s.twist[i]) + x*(1-x)*s.twist[i]) / h
}

// At writes the state at time t of the last step into y.
func (s *Solver) At(t float64, y []float64) {
	for i := range y {
		y[i] = s.Value(i, t)
	}
}
