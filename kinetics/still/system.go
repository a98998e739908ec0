package still

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/conduction"
)

// system is (1) and (2) of the package comment for the integrator. The state is
// α of every cell, T of every cell and, where the viscosity needs it, φ of every
// cell.
type system struct {
	resin  *kinetics.Resin
	net    *conduction.Network
	n      int
	phi    bool
	pieces []kinetics.RateLaw // of the rate law, between its breaks
	piece  []int              // of each cell

	sharpness float64 // of the vitrification

	// Of the stretch being integrated.
	t0            float64
	roomK, roomKs float64 // at t0, and the slope
	wallK, wallKs float64

	band   *conduction.Band
	watts  []float64
	source []float64 // J of heat of each cell when its α goes from 0 to 1
	dAlpha []float64 // ∂rate/∂α of each cell, 1/s
	dT     []float64 // ∂rate/∂T, 1/(s·K)
	dPhi   []float64 // ∂φ'/∂T, 1/(s·K)
	pivot  []float64 // g − ∂rate/∂α
	plus   []float64
	g      float64
}

func newSystem(r *kinetics.Resin, net *conduction.Network) *system {
	n := net.Cells()
	s := &system{resin: r, net: net, n: n, phi: r.Viscosity.HasPhi(), band: net.NewBand(), piece: make([]int, n)}
	if r.Vitrification != nil {
		s.sharpness = r.Vitrification.Sharpness()
	}
	for i := range len(r.Cure.Breaks()) + 1 {
		s.pieces = append(s.pieces, r.Cure.Piece(i))
	}
	for _, p := range []*[]float64{&s.watts, &s.source, &s.dAlpha, &s.dT, &s.dPhi, &s.pivot, &s.plus} {
		*p = make([]float64, n)
	}
	for i, m := range net.Resin {
		s.source[i] = m * float64(r.Heat)
	}
	return s
}

// rate is dα/dt of cell i.
func (s *system) rate(i int, alpha, kelvin float64) float64 {
	rate := s.pieces[s.piece[i]].Rate(alpha, kelvin)
	if v := s.resin.Vitrification; v != nil {
		if x := s.sharpness * (alpha - v.Conversion(kelvin)); x > unslowed {
			rate *= kinetics.Slowed(x)
		}
	}
	return rate
}

// unslowed is the exponent of the vitrification factor below which it is taken
// for 1: it is, to 1e-9, and most cells are spared an exponential.
const unslowed = -20.7

// Derivative serves the integrator.
func (s *system) Derivative(t float64, y, dydt []float64) {
	n, dt := s.n, t-s.t0
	alpha, kelvin := y[:n], y[n:2*n]
	dAlpha, dKelvin := dydt[:n], dydt[n:2*n]
	s.net.Flow(kelvin, s.roomK+s.roomKs*dt, s.wallK+s.wallKs*dt, dKelvin)
	for i, q := range s.source {
		rate := 0.0
		if s.net.Resin[i] > 0 {
			rate = s.rate(i, alpha[i], kelvin[i])
		}
		dAlpha[i] = rate
		dKelvin[i] = (dKelvin[i] + q*rate) / s.net.Capacity[i]
	}
	if s.phi {
		dPhi := dydt[2*n : 3*n]
		for i := range dPhi {
			dPhi[i] = s.resin.Viscosity.PhiRate(kelvin[i])
		}
	}
}

// Steps of the finite differences: far above rounding, where the second
// derivative still changes the first by a few millionths.
const (
	kelvinStep = 1e-4
	alphaStep  = 1e-7
)

// Linearise keeps the derivatives of the cure in every cell.
func (s *system) Linearise(_ float64, y, dydt, dfdt []float64) {
	n := s.n
	for i := range s.source {
		dfdt[i] = 0
		dfdt[n+i] = (s.net.ToRoom[i]*s.roomKs + s.net.ToWall[i]*s.wallKs) / s.net.Capacity[i]
		if !(s.net.Resin[i] > 0) {
			continue
		}
		alpha, kelvin, rate := y[i], y[n+i], dydt[i]
		step := alphaStep
		if alpha > 0.5 { // away from 1, where the law ends
			step = -step
		}
		s.dAlpha[i] = (s.rate(i, alpha+step, kelvin) - rate) / step
		s.dT[i] = (s.rate(i, alpha, kelvin+kelvinStep) - rate) / kelvinStep
	}
	if s.phi {
		for i := range s.dPhi {
			dfdt[2*n+i] = 0
			s.dPhi[i] = (s.resin.Viscosity.PhiRate(y[n+i]+kelvinStep) - dydt[2*n+i]) / kelvinStep
		}
	}
}

// Factor eliminates α cell by cell, (4) of the package comment.
func (s *system) Factor(g float64) bool {
	s.g = g
	for i, q := range s.source {
		s.pivot[i] = g - s.dAlpha[i]
		if !(s.pivot[i] > 0) {
			return false
		}
		s.plus[i] = g * (s.net.Capacity[i] - q*s.dT[i]/s.pivot[i])
	}
	s.net.Fill(s.band, s.plus)
	return s.band.Factor()
}

// Solve is (4) and (5) of the package comment.
func (s *system) Solve(x []float64) {
	n := s.n
	alpha, kelvin := x[:n], x[n:2*n]
	for i, q := range s.source {
		kelvin[i] = kelvin[i]*s.net.Capacity[i] + q*s.dAlpha[i]*alpha[i]/s.pivot[i]
	}
	s.band.Solve(kelvin)
	for i := range alpha {
		alpha[i] = (alpha[i] + s.dT[i]*kelvin[i]) / s.pivot[i]
	}
	if s.phi {
		phi := x[2*n : 3*n]
		for i := range phi {
			phi[i] = (phi[i] + s.dPhi[i]*kelvin[i]) / s.g
		}
	}
}

// hottest is the index of the hottest cell that holds resin.
func (s *system) hottest(y []float64) int {
	best, at := math.Inf(-1), 0
	for i, kelvin := range y[s.n : 2*s.n] {
		if kelvin > best && s.net.Resin[i] > 0 {
			best, at = kelvin, i
		}
	}
	return at
}
