package batches

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Course follows the plan with one member and returns the bath at each of the
// elapsed times, which ascend. A moment at which the bath is empty, before the
// plan begins, before the fill and while it is changed, has a mass of 0 and is otherwise meaningless.
func Course(t *Task, plan *Plan, m ensemble.Member, at []quantity.Time) ([]vessel.State, error) {
	c := newCrew(t, m)
	start, err := c.begin()
	if err != nil {
		return nil, err
	}
	w := &walk{crew: c, at: at}
	w.empty(start.clock)
	w.state = start.heel
	unit := 0
	for i := range plan.Pours {
		pour := &plan.Pours[i]
		if pour.Into == TopUp || pour.Into == None {
			if err := w.to(float64(pour.At), vessel.Tow{}); err != nil {
				return nil, err
			}
		} else {
			w.empty(float64(pour.At))
		}
		for _, pot := range pour.Pots {
			fresh, err := c.inCup(pot, w.now)
			if err != nil {
				return nil, err
			}
			w.state = vessel.Pour(c.bath.Resin(), w.state, fresh)
		}
		last := len(t.Units)
		if i+1 < len(plan.Pours) {
			last = plan.Pours[i+1].Stop
		}
		for ; unit < last; unit++ {
			if err := w.to(float64(plan.Start[unit]), vessel.Tow{}); err != nil {
				return nil, err
			}
			if err := w.to(float64(plan.End[unit]), t.tow(&t.Units[unit])); err != nil {
				return nil, err
			}
		}
	}
	return w.states(), nil
}

// walk follows the bath from one moment asked for to the next.
type walk struct {
	crew  *crew
	at    []quantity.Time
	seen  []vessel.State
	now   float64
	state vessel.State
}

// to follows the bath until the time given and keeps the states asked for.
func (w *walk) to(until float64, tow vessel.Tow) error {
	for {
		next := until
		if k := len(w.seen); k < len(w.at) && float64(w.at[k]) <= until {
			next = math.Max(float64(w.at[k]), w.now)
		}
		state, err := w.crew.bath.Advance(w.state, quantity.Time(w.now), quantity.Time(next), tow)
		if err != nil {
			return err
		}
		w.state, w.now = state, next
		k := len(w.seen)
		if k >= len(w.at) || float64(w.at[k]) > until {
			return nil
		}
		w.seen = append(w.seen, state)
	}
}

// empty passes the time until the fill.
func (w *walk) empty(until float64) {
	for len(w.seen) < len(w.at) && float64(w.at[len(w.seen)]) < until {
		w.seen = append(w.seen, vessel.State{})
	}
	w.now, w.state = until, vessel.State{}
}

// states fills up what was asked for after the end.
func (w *walk) states() []vessel.State {
	for len(w.seen) < len(w.at) {
		w.seen = append(w.seen, vessel.State{})
	}
	return w.seen
}

// Viscosity of a state in the resin of member m.
func (t *Task) Viscosity(m ensemble.Member, s vessel.State) quantity.Viscosity {
	resin := t.Resin.Adjusted(m.Rate, m.Viscosity)
	return s.Viscosity(&resin)
}
