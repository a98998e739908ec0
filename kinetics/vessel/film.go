package vessel

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"potlife/kinetics"
	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
)

// A Film is resin laid on a mandrel: so thin that it has the mandrel's
// temperature and only ages.
type Film struct {
	resin   kinetics.Resin
	mandrel Series

	kelvin float64 // at a constant mandrel temperature
	ages   []float64
	cells  float64

	solver  *ode.Solver
	scratch []float64
}

// filmCells divides the conversions below gel for the quadrature at constant
// temperature; with three Gauss points a cell the error is below 1e-9 of the time
// to gel, and below 1e-4 where a rate law jumps inside a cell.
const filmCells = 64

// NewFilm returns a film of resin at the temperature of the mandrel.
func NewFilm(resin kinetics.Resin, mandrel Series) *Film {
	f := &Film{resin: resin, mandrel: mandrel, scratch: make([]float64, 1)}
	if mandrel.IsConstant() {
		f.kelvin = float64(mandrel.At(0))
		f.cells = filmCells
		f.ages = make([]float64, filmCells+1)
		for i := range filmCells {
			f.ages[i+1] = f.ages[i] + f.age(f.level(i), f.level(i+1))
		}
		return f
	}
	f.solver = ode.New(ode.Func(f.derivative), ode.Tolerance{Abs: []float64{Working.Alpha}})
	return f
}

func (f *Film) level(i int) float64 { return f.resin.Gel * float64(i) / f.cells }

// age is ∫dα/rate between two conversions at the mandrel's constant temperature.
func (f *Film) age(from, to float64) float64 {
	return quad.Fixed(func(alpha float64) float64 {
		return 1 / f.resin.CureRate(alpha, f.kelvin)
	}, from, to, 3, quad.Legendre{}, 0)
}

func (f *Film) derivative(t float64, y, dydt []float64) {
	dydt[0] = f.resin.CureRate(y[0], float64(f.mandrel.At(quantity.Time(t))))
}

// gelHorizon is how far ahead a film is followed; one that has not gelled by
// then is as good as never gelled.
const gelHorizon = 7 * 86400.0

// GelAt returns the elapsed time at which a film laid at conversion alpha at
// time at gels, +Inf when it does not within seven days.
func (f *Film) GelAt(alpha float64, at quantity.Time) (quantity.Time, error) {
	if alpha >= f.resin.Gel {
		return at, nil
	}
	if f.solver == nil {
		left := f.remaining(math.Max(alpha, 0))
		if !(left <= gelHorizon) { // NaN where the film is glass and both parts are infinite
			return quantity.Time(math.Inf(1)), nil
		}
		return at + quantity.Time(left), nil
	}
	return f.integrate(alpha, float64(at))
}

// remaining is the time to gel at the constant temperature, by the table and
// the rest of a cell.
func (f *Film) remaining(alpha float64) float64 {
	cell := min(int(alpha/f.resin.Gel*f.cells), filmCells-1)
	return f.ages[filmCells] - f.ages[cell+1] + f.age(alpha, f.level(cell+1))
}

func (f *Film) integrate(alpha, at float64) (quantity.Time, error) {
	end := at + gelHorizon
	y := []float64{alpha}
	beyond := func(_ float64, y []float64) float64 { return y[0] - f.resin.Gel }
	for t := at; t < end; {
		next := math.Min(end, f.mandrel.next(t))
		f.solver.Start(t, y)
		for f.solver.T() < next {
			if err := f.solver.Step(next); err != nil {
				return 0, err
			}
			before, now := f.solver.YBefore()[0]-f.resin.Gel, f.solver.Y()[0]-f.resin.Gel
			if now >= 0 {
				gel, _ := f.solver.Crossing(beyond, before, now, f.scratch)
				return quantity.Time(gel), nil
			}
		}
		t, y[0] = next, f.solver.Y()[0]
	}
	return quantity.Time(math.Inf(1)), nil
}
