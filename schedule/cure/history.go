package cure

import (
	"fmt"
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// A Layer is one wound layer, innermost first, as it lies when the last is down.
type Layer struct {
	Thickness   quantity.Length
	FibreVolume quantity.Fraction
	State       vessel.State // Mass is not used
}

// A History is the laid laminate as one bath has it.
type History struct {
	Wound  quantity.Time // elapsed seconds of the job at which the last layer is down
	Layers []Layer
}

// laying is a layer's resin as it is laid.
type laying struct {
	at    quantity.Time
	state vessel.State
}

// planned is the laminate of a plan: each layer is laid with what is in the bath while its
// units are half done.
func planned(w *schedule.Winding, plan *batches.Plan, m ensemble.Member) (*History, error) {
	at := make([]quantity.Time, len(w.Task.Units))
	for u := range at {
		at[u] = (plan.Start[u] + plan.End[u]) / 2
	}
	states, err := batches.Course(w.Task, plan, m, at)
	if err != nil {
		return nil, err
	}
	laid := make([]laying, len(w.Laid))
	resin := make([]quantity.Mass, len(w.Laid))
	for u, unit := range w.Task.Units {
		into := &laid[unit.Layer]
		share := float64(unit.Resin / (unit.Resin + resin[unit.Layer]))
		into.at += (at[u] - into.at) * quantity.Time(share)
		into.state = blend(into.state, states[u], share)
		resin[unit.Layer] += unit.Resin
	}
	r := w.Task.Resin.Adjusted(m.Rate, m.Viscosity)
	return aged(w, r, laid, plan.End[len(plan.End)-1])
}

// blend moves a state towards another by a share.
func blend(s, to vessel.State, share float64) vessel.State {
	s.Alpha += share * (to.Alpha - s.Alpha)
	s.Phi += share * (to.Phi - s.Phi)
	s.LogExcess += share * (to.LogExcess - s.LogExcess)
	return s
}

// aged lets every layer lie on the mandrel until the last is down.
func aged(w *schedule.Winding, r kinetics.Resin, laid []laying, wound quantity.Time) (*History, error) {
	mandrel := w.Task.Limits.Mandrel
	// A gram on a square metre follows the mandrel at once.
	film := vessel.New(r, vessel.Tray(1, 1, 100, 100), mandrel, mandrel, vessel.Working)
	h := &History{Wound: wound}
	for i, l := range laid {
		s := l.state
		s.Mass, s.Temperature = 1e-3, mandrel.At(l.at)
		if l.at < wound {
			var err error
			if s, err = film.Advance(s, l.at, wound, vessel.Tow{}); err != nil {
				return nil, fmt.Errorf("layer %s on the mandrel: %w", w.Laid[i].Name, err)
			}
		}
		s.Temperature = mandrel.At(wound)
		thickness, share := laminate(w, i)
		h.Layers = append(h.Layers, Layer{Thickness: thickness, FibreVolume: share, State: s})
	}
	return h, nil
}

// laminate is how thick layer i lies and how much of its volume is fibre, voids left out:
// by its fibre, and the resin that stays on the part.
func laminate(w *schedule.Winding, i int) (quantity.Length, quantity.Fraction) {
	l := &w.Laid[i]
	fibre := float64(l.Fibre) / float64(w.Job.Fibre.Density)
	resin := float64(l.Resin) * (1 - float64(w.Job.Bleed)) / float64(w.Record.Kinetics.Density)
	share := fibre / (fibre + resin)
	target := float64(w.Job.FibreFraction.OfVolume(w.Job.Fibre.Density, w.Record.Kinetics.Density))
	return l.Thickness * quantity.Length(target/share), quantity.Fraction(math.Min(share, 1))
}
