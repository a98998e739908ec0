package fit

import (
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// A Prediction is a figure of the new record with its spread: 9 times in 10 the
// truth lies between Likely/Spread and Likely·Spread.
type Prediction struct {
	Likely quantity.Time
	Spread float64
}

// smallestSpread is what no record gets below: a room held to 0.5 K (4 %), a
// ratio weighed to 2 % and an end seen by eye do not repeat a life any better.
const smallestSpread = 1.05

// Life predicts how long a mass at the room's temperature lasts in a container
// until the end, with the spread that the statements leave, loss and heat included,
// and widened by contradictions as the record's own. Where the vessel's own losses
// were measured, its coefficients stand as they are and lossKnown is set. The life is
// +Inf when the end is not reached in a week; its spread is the record's then.
func (f *Result) Life(in resins.Container, lossKnown bool, mass quantity.Mass, at quantity.Temperature, end vessel.EndPoint) (Prediction, error) {
	l := life{in: in, lossKnown: lossKnown, mass: mass, at: at, end: end}
	likely, err := f.logLife(l, f.solution.X)
	if err != nil {
		return Prediction{}, err
	}
	l.coarse = true
	sigma, err := f.lifeSigma(l)
	if err == nil && !finite(sigma) { // next to an end that is only just reached
		l.coarse = false
		sigma, err = f.lifeSigma(l)
	}
	sigma *= f.wider(rate)
	p := Prediction{Likely: quantity.Time(math.Exp(likely)), Spread: math.Max(spreadOf(sigma), smallestSpread)}
	if !finite(sigma) || math.IsInf(likely, 0) {
		p.Spread = f.Record.Spread.Time // next to a life without end there is no slope
	}
	return p, err
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// A life is the test that is asked for. Its slopes are taken on the coarse grid,
// whose 2 % of a life are much the same on both sides of a difference.
type life struct {
	in        resins.Container
	lossKnown bool
	mass      quantity.Mass
	at        quantity.Temperature
	end       vessel.EndPoint
	coarse    bool
}

// decides are the parameters that a life depends on.
func (l *life) decides(s *space) []int {
	list := append(s.decideCure(), heat)
	if !l.lossKnown {
		list = append(list, loss)
	}
	if l.end.Viscosity > 0 || l.end.Doubled {
		list = append(list, viscosity, flowEnergy)
	}
	return list
}

// logLife is ln of a life in s.
func (f *Result) logLife(l life, x []float64) (float64, error) {
	resin, err := f.model.resin(x)
	if err != nil {
		return 0, err
	}
	test := resins.PotTest{In: l.in, Mass: l.mass, Room: l.at, Coarse: l.coarse}
	if !l.lossKnown {
		test.Losses = math.Exp(f.model.value(loss, x))
	}
	t, err := test.TimeTo(resin, l.end, 7*86400)
	return math.Log(float64(t)), err
}

// lifeSigma is the standard deviation √(gᵀCg) of ln of a life at the solution; NaN
// where that is not finite around. Parameters that do not decide it have no slope.
func (f *Result) lifeSigma(l life) (float64, error) {
	g := make([]float64, len(f.solution.X))
	decisive := l.decides(f.model.space)
	err := ensemble.Each(len(decisive), func() []float64 { return slices.Clone(f.solution.X) }, func(x []float64, d int) error {
		i := f.model.index[decisive[d]]
		if i < 0 {
			return nil
		}
		defer copy(x, f.solution.X)
		x[i] += step
		above, err := f.logLife(l, x)
		if err != nil {
			return err
		}
		x[i] -= 2 * step
		below, err := f.logLife(l, x)
		g[i] = (above - below) / (2 * step)
		return err
	})
	variance := 0.0
	for i := range g {
		for j := range g {
			variance += g[i] * f.covariance[i][j] * g[j]
		}
	}
	return math.Sqrt(variance), err
}

// The window that the spread of time stands for: rooms in which people wind, a
// label's cup and a crew's pot.
var (
	windowMasses = []quantity.Mass{0.1, 0.5}
	windowRooms  = []quantity.Temperature{quantity.Celsius(18), quantity.Celsius(23), quantity.Celsius(28)}
)

// spread is what the new record claims: of time, the root mean square over lives
// to gel of 100 and 500 g in their usual cups at 18, 23 and 28 °C (around the
// pivot for a system that does not cure there), of viscosity at its reference
// temperature; never more than the prior's. Contradicting statements widen it by
// the largest surprise over the 3σ at which they are called that. Loss keeps the
// prior's spread: it belongs to a vessel, not to a resin.
func (f *Result) spread() (ensemble.Spread, error) {
	s := f.Prior.Spread
	narrowed := func(before, sigma float64, k int) float64 {
		sigma = f.wider(k) * math.Min(sigma, ensemble.Sigma(before))
		return math.Max(math.Min(before, smallestSpread), spreadOf(sigma))
	}
	if slices.ContainsFunc(f.model.tests, func(t *test) bool { return t.aboutCure() }) && f.model.index[rate] >= 0 {
		time, err := f.timeSigma()
		if err != nil {
			return s, err
		}
		s.Time = narrowed(s.Time, time, rate)
	}
	if i := f.model.index[viscosity]; i >= 0 {
		s.Viscosity = narrowed(s.Viscosity, f.model.all[viscosity].sigma*math.Sqrt(f.covariance[i][i]), viscosity)
	}
	return s, nil
}

// wider is by how much contradictions about a parameter widen what is said of it.
func (f *Result) wider(k int) float64 { return math.Max(1, f.widest[k]) }

func (f *Result) timeSigma() (float64, error) {
	sum, n := 0.0, 0
	shift := quantity.Temperature(f.model.pivot) - usualPivot
	for _, mass := range windowMasses {
		cup := resins.AssumedCup(mass, f.Prior.Kinetics.Density)
		cup.Drum = resins.Turning // as a bath is
		for _, room := range windowRooms {
			sigma, err := f.lifeSigma(life{in: cup, mass: mass, at: room + shift, end: vessel.EndPoint{Gel: true}})
			if err != nil {
				return 0, err
			}
			if !finite(sigma) {
				continue // no end within a week
			}
			sum, n = sum+sigma*sigma, n+1
		}
	}
	if n == 0 {
		return ensemble.Sigma(f.Prior.Spread.Time), nil
	}
	return math.Sqrt(sum / float64(n)), nil
}
