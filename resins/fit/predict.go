package fit

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// What statements are good for; their reasons stand in the package comment.
var (
	timeSigma      = ensemble.Sigma(1.1)
	assumedSigma   = ensemble.Sigma(1.3)  // of a pot life in a cup not known
	viscositySigma = ensemble.Sigma(1.15) // one viscometer or flow cup to another
)

const (
	conversionSigma  = 0.02
	glassSigma       = 3.0  // K
	statedHeatSigma  = 0.05 // of ln H
	thermometerSigma = 0.5  // K
	clockSigma       = 0.01 // of the time since mixing
	leastLate        = 5.0  // s, of any time
)

// farthest is how far a prediction may be from a statement before it stops to
// count: e^7, a thousandfold, is as wrong as can be.
const farthest = 7.0

func bounded(x float64) float64 {
	if math.IsNaN(x) {
		return farthest
	}
	return math.Max(-farthest, math.Min(farthest, x))
}

// A test is a statement ready to be predicted again and again.
type test struct {
	*Statement
	index int // among the tests
	run   int // that answers it
	first int // index of its first-temperature parameter, for a log
	count int // residuals
	log   *thinned
}

func newTest(s *Statement, density quantity.Density) (*test, []warning.Warning, error) {
	t := &test{Statement: s, count: 1}
	if s.Kind != CupLog {
		return t, nil, nil
	}
	log, warnings, err := thin(s, density)
	if err != nil {
		return nil, nil, err
	}
	t.log, t.count = log, len(log.at)+len(log.thickAt)
	return t, warnings, nil
}

// said is the figure that stands for the statement in a report: a time in s, a
// viscosity in Pa·s, a conversion, a temperature in K, an energy in J/kg.
func (t *test) said() float64 {
	switch t.Kind {
	case PotLife, FilmGel:
		return float64(t.Time)
	case Viscosity:
		return float64(t.Value)
	case Conversion:
		return t.Is
	case Glass:
		return float64(t.Glass)
	case Heat:
		return float64(t.Heat)
	}
	return t.log.figure(t.log.at, t.log.is)
}

func logit(p float64) float64 { return math.Log(p / (1 - p)) }

func (t *test) potLifeSigma() float64 {
	if t.Assumed {
		return assumedSigma
	}
	return timeSigma
}

// patience is how many times the stated time a test is followed.
const patience = 20

// potLife simulates the label's test; +Inf when the end is not reached within the
// horizon. Coarse is for the fit, which asks a thousand times.
func (s *Statement) potLife(r *kinetics.Resin, losses float64, horizon quantity.Time, coarse bool) (quantity.Time, error) {
	pot := s.pot(r, losses, coarse)
	return pot.TimeTo(*r, s.End, horizon)
}

// pot is the label's test of a resin.
func (s *Statement) pot(r *kinetics.Resin, losses float64, coarse bool) resins.PotTest {
	return resins.PotTest{In: s.container(r.Density), Mass: s.Mass, Room: s.At, Losses: losses, Coarse: coarse}
}
