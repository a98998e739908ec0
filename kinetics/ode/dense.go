package ode

// prepareDense sets up the continuous extension over the step just accepted,
// before the buffers turn: [2], II.6, formula of order 4.
func (s *Solver) prepareDense(h float64) {
	for i := range s.y {
		rise := s.yTry[i] - s.y[i]
		bend := h*s.k1[i] - rise
		s.dense[0][i] = s.y[i]
		s.dense[1][i] = rise
		s.dense[2][i] = bend
		s.dense[3][i] = rise - h*s.k7[i] - bend
		s.dense[4][i] = h * (d1*s.k1[i] + d3*s.k3[i] + d4*s.k4[i] + d5*s.k5[i] + d6*s.k6[i] + d7*s.k7[i])
	}
	s.denseReady = true
}

// At writes the state at time t, between [Solver.Before] and [Solver.T], into y.
// Outside the last step the polynomial extrapolates; before the first step it
// is the starting state.
func (s *Solver) At(t float64, y []float64) {
	if !s.denseReady || s.t == s.tPrev {
		copy(y, s.y)
		return
	}
	x := (t - s.tPrev) / (s.t - s.tPrev)
	z := 1 - x
	for i := range y {
		y[i] = s.dense[0][i] + x*(s.dense[1][i]+z*(s.dense[2][i]+x*(s.dense[3][i]+z*s.dense[4][i])))
	}
}

// SlopeAt writes dy/dt of the continuous extension at time t into dydt.
func (s *Solver) SlopeAt(t float64, dydt []float64) {
	if !s.denseReady || s.t == s.tPrev {
		copy(dydt, s.k1)
		return
	}
	h := s.t - s.tPrev
	x := (t - s.tPrev) / h
	z := 1 - x
	for i := range dydt {
		inner := s.dense[3][i] + z*s.dense[4][i]
		middle := s.dense[2][i] + x*inner
		dMiddle := inner - x*s.dense[4][i]
		dydt[i] = (s.dense[1][i] + z*middle + x*(z*dMiddle-middle)) / h
	}
}
