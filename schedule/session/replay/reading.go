package replay

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session"
)

// A Reading is what a thermometer or a flow cup said of the bath.
type Reading struct {
	Seq         int
	At          quantity.Time
	Viscous     bool                 // a viscosity, else a temperature
	Temperature quantity.Temperature // as read
	Viscosity   quantity.Viscosity   // as read
	Old         bool                 // left out, since there are enough later ones
	standsFor   int                  // how many of its window, itself included
	spare       bool                 // left out, since another of its window tells the same, see thin.go
	slot        int                  // among what worlds say, where it is not spare
}

// Standard deviations of readings: half a kelvin for a workshop's thermometer in a bath that
// is not quite even, 10 % for a flow cup (common practice: cups repeat to 5 to 10 %).
const (
	thermometer = 0.5  // K
	flowCup     = 0.10 // of ln η
)

// The chance that a reading is simply wrong, and the density it then has per standard
// deviation: anywhere within 200 of them.
const (
	wrongShare   = 0.02
	wrongDensity = 1.0 / 200
)

func reading(e session.Event, at float64) (Reading, bool) {
	r := Reading{Seq: e.Seq, At: quantity.Time(at), standsFor: 1}
	switch e.Kind {
	case session.BathTemp:
		r.Temperature = quantity.Celsius(*e.IsC)
	case session.FlowCup, session.Viscosity:
		r.Viscous, r.Viscosity = true, quantity.Viscosity(e.IsPaS)
	default:
		return r, false
	}
	return r, true
}

// deviation is how many standard deviations the reading lies above what a member says: a
// temperature in K or a ln η.
func (r *Reading) deviation(says float64) float64 {
	if r.Viscous {
		return (math.Log(float64(r.Viscosity)) - says) / flowCup
	}
	return (float64(r.Temperature) - says) / thermometer
}

// independent is how many readings of a kind tell more than one alone, by (5).
const independent = 12

// counts is what each reading of a kind counts, (5) of the package comment.
func (s *Script) counts(viscous bool) float64 {
	n := 0
	for i := range s.Readings {
		if r := &s.Readings[i]; r.Viscous == viscous && r.Weighs() {
			n += r.standsFor
		}
	}
	return math.Min(1, independent/float64(n))
}

// Past tells that the reading lies past a limit of the bath by more than its standard
// deviation.
func (r *Reading) Past(l vessel.Limits) bool {
	if r.Viscous {
		return r.deviation(math.Log(float64(l.BathViscosity))) > 1
	}
	return r.deviation(float64(l.BathTemperature)) > 1
}

// PastLimit is the limit that a reading past one lies past.
func (r *Reading) PastLimit() vessel.Limit {
	if r.Viscous {
		return vessel.BathViscosity
	}
	return vessel.BathTemperature
}

// likelihood is ln L of (4), and the share of L that says that the reading is wrong.
func likelihood(deviation float64) (logL, wrong float64) {
	right := (1 - wrongShare) * math.Exp(-deviation*deviation/2) / math.Sqrt(2*math.Pi)
	slip := wrongShare * wrongDensity
	if math.IsNaN(deviation) || math.IsInf(deviation, 0) {
		right = 0 // a member that has gelled has no viscosity to be read
	}
	return math.Log(right + slip), slip / (right + slip)
}

// StandardDeviation of the reading: K, or Pa·s.
func (r *Reading) StandardDeviation() float64 {
	if r.Viscous {
		return flowCup * float64(r.Viscosity)
	}
	return thermometer
}
