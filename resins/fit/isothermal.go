package fit

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"potlife/kinetics"
	"potlife/kinetics/ode"
)

// cells divide a conversion for the quadrature, as in a film.
const cells = 64

// timeTo returns ∫dα/rate from 0 to a conversion at a constant temperature, s;
// +Inf where the resin turns to glass before.
func timeTo(r *kinetics.Resin, alpha, kelvin float64) float64 {
	sum, from := 0.0, 0.0
	slowness := func(a float64) float64 { return 1 / r.CureRate(a, kelvin) }
	part := func(to float64) {
		for i := range cells {
			low := from + (to-from)*float64(i)/cells
			high := from + (to-from)*float64(i+1)/cells
			sum += quad.Fixed(slowness, low, high, 3, quad.Legendre{}, 0)
		}
		from = to
	}
	for _, at := range r.Cure.Breaks() {
		if at < alpha {
			part(at)
		}
	}
	part(alpha)
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}

// conversionAfter returns the conversion of fresh resin after a time at a
// constant temperature.
func conversionAfter(r *kinetics.Resin, seconds, kelvin float64) (float64, error) {
	y, t := []float64{0}, 0.0
	breaks := r.Cure.Breaks()
	for i := 0; t < seconds; i++ {
		law := r.Cure.Piece(i)
		solver := ode.New(ode.Func(func(_ float64, y, dydt []float64) {
			dydt[0] = law.Rate(y[0], kelvin)
			if r.Vitrification != nil {
				dydt[0] *= kinetics.Slowing(r.Vitrification, y[0], kelvin)
			}
		}), ode.Tolerance{Abs: []float64{1e-7}})
		solver.Start(t, y)
		level := math.Inf(1)
		if i < len(breaks) {
			level = breaks[i]
		}
		scratch := []float64{0}
		for solver.T() < seconds {
			if err := solver.Step(seconds); err != nil {
				return 0, err
			}
			before, now := solver.YBefore()[0]-level, solver.Y()[0]-level
			if at, found := solver.Crossing(func(_ float64, y []float64) float64 { return y[0] - level }, before, now, scratch); found {
				t, y[0] = at, level
				break
			}
			t, y[0] = solver.T(), solver.Y()[0]
		}
	}
	return y[0], nil
}
