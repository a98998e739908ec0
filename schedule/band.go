package schedule

import (
	"math"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
)

// A Band is the bath's viscosity over a plan: the median of the ensemble, and
// what 10 and 90 % of it stay below. NaN where the bath is empty, +Inf where it
// has gelled.
type Band struct {
	At                []time.Time
	Likely, Low, High []quantity.Viscosity
}

// How finely a band is drawn.
const (
	bandMoments = 320
	bandMembers = 80
)

// Band follows the plan with an ensemble, from its first pour on, or from where
// it begins when there is resin in the bath already.
func (w *Winding) Band(plan *batches.Plan) (*Band, error) {
	first, last := float64(plan.Pours[0].At), float64(plan.End[len(plan.End)-1])
	if w.Task.Begin.Filled {
		first = float64(w.Task.Begin.At)
	}
	at := make([]quantity.Time, bandMoments+1)
	for i := range at {
		at[i] = quantity.Time(first + (last-first)*float64(i)/bandMoments)
	}
	members := w.Task.Sample(bandMembers)
	courses := make([][]vessel.State, len(members))
	err := ensemble.Each(len(members), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		courses[i], err = batches.Course(w.Task, plan, members[i], at)
		return err
	})
	if err != nil {
		return nil, err
	}
	b := &Band{}
	values, weights := make([]float64, len(members)), make([]float64, len(members))
	for k, elapsed := range at {
		for i, m := range members {
			values[i], weights[i] = w.viscosity(m, courses[i][k]), m.Weight
		}
		b.At = append(b.At, w.Job.Clock(elapsed))
		b.Likely = append(b.Likely, quantity.Viscosity(ensemble.Quantile(ensemble.LikelyQuantile, values, weights)))
		b.Low = append(b.Low, quantity.Viscosity(ensemble.Quantile(0.1, values, weights)))
		b.High = append(b.High, quantity.Viscosity(ensemble.Quantile(0.9, values, weights)))
	}
	return b, nil
}

func (w *Winding) viscosity(m ensemble.Member, s vessel.State) float64 {
	if s.Mass <= 0 {
		return math.NaN()
	}
	return float64(w.Task.Viscosity(m, s))
}

// LikelyViscosities are those of the likely bath as each unit of a plan ends.
func (w *Winding) LikelyViscosities(plan *batches.Plan) ([]quantity.Viscosity, error) {
	likely := w.Task.Likely()
	states, err := batches.Course(w.Task, plan, likely, plan.End)
	if err != nil {
		return nil, err
	}
	list := make([]quantity.Viscosity, len(states))
	for i, s := range states {
		list[i] = quantity.Viscosity(w.viscosity(likely, s))
	}
	return list, nil
}
