package batches

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Belief is what is known of the bath: by the readings, or by the spread alone.
func (t *Task) Belief() ensemble.Belief {
	if t.Known != nil {
		return *t.Known
	}
	return t.Spread.Belief()
}

// Likely is the bath in the middle.
func (t *Task) Likely() Sure { return t.Belief().Mean() }

// Sure is the bath that lies z standard deviations on the bad side of a working life.
func (t *Task) Sure(z float64) (Sure, error) {
	slope, err := t.shorterLife()
	return t.Belief().Worst(z, slope), err
}

// lifeStep is how far the members are apart, of whose lives the slope is a regression: far enough
// to see beyond a kink where another limit ends a life.
var lifeStep = ensemble.Sigma(ensemble.UsualSpread)

// shorterLife is how the life of a bath filled fresh when the plan begins depends on rate,
// viscosity and loss, one in ten on the bad side: it stands for that of the baths of a plan, of
// which the ensemble judges.
func (t *Task) shorterLife() (ensemble.Slope, error) {
	known, at := t.Belief(), float64(t.Begin.At)
	return known.Slope(known.Worst(firstRung, ensemble.ShorterLife), lifeStep, ensemble.ShorterLife, func(m ensemble.Member) (float64, error) {
		fresh := vessel.State{Mass: t.Bath.Highest, Temperature: t.mixedAt(at, m.Mixed)}
		life, err := newCrew(t, m).lifeOf(fresh, at, lifeHorizon)
		return -math.Log(float64(max(1, min(life.Left, quantity.Time(lifeHorizon))))), err
	})
}
