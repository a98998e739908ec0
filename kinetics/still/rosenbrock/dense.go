package rosenbrock

// prepareDense sets up (5) of the package comment over the step just accepted.
func (s *Solver) prepareDense() {
	for r, weights := range s.method.dense {
		d := s.dense[r]
		clear(d)
		combine(d, d, weights, s.u, 1)
	}
}

// at returns where in the last step t lies, 0 to 1.
func (s *Solver) at(t float64) (x float64, inside bool) {
	if s.t == s.tPrev {
		return 1, false
	}
	return (t - s.tPrev) / (s.t - s.tPrev), true
}

// Value returns component i at time t of the last step.
func (s *Solver) Value(i int, t float64) float64 {
	x, inside := s.at(t)
	if !inside {
		return s.y[i]
	}
	bend := 0.0
	for r := len(s.dense) - 1; r >= 0; r-- {
		bend = s.dense[r][i] + x*bend
	}
	return (1-x)*s.yPrev[i] + x*(s.y[i]+(1-x)*bend)
}

// Rise returns the slope of component i at time t of the last step.
func (s *Solver) Rise(i int, t float64) float64 {
	x, inside := s.at(t)
	if !inside {
		return s.f[i]
	}
	bend, slope := 0.0, 0.0
	for r := len(s.dense) - 1; r >= 0; r-- {
		slope = bend + x*slope
		bend = s.dense[r][i] + x*bend
	}
	return (s.y[i] - s.yPrev[i] + (1-2*x)*bend + x*(1-x)*slope) / (s.t - s.tPrev)
}

// At writes the state at time t of the last step into y.
func (s *Solver) At(t float64, y []float64) {
	for i := range y {
		y[i] = s.Value(i, t)
	}
}
