package cure

import (
	"fmt"
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// A Layer is one wound layer, or several that lie together, innermost first, as it is when
// the last is down.
type Layer struct {
	Thickness   quantity.Length
	FibreVolume quantity.Fraction
	State       vessel.State // Mass is not used
}

// A History is the laid laminate as one bath has it, and how warm its mandrel is then.
type History struct {
	Wound   quantity.Time // elapsed seconds of the job at which the last layer is down
	Layers  []Layer
	Mandrel quantity.Temperature
}

// laying is a layer as it is laid.
type laying struct {
	Layer
	at quantity.Time
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
	laid := layers(w)
	resin := make([]quantity.Mass, len(laid))
	for u, unit := range w.Task.Units {
		into := &laid[unit.Layer]
		share := float64(unit.Resin / (unit.Resin + resin[unit.Layer]))
		into.at += (at[u] - into.at) * quantity.Time(share)
		into.State = blend(into.State, states[u], share)
		resin[unit.Layer] += unit.Resin
	}
	return grown(w, w.Task.Resin.Adjusted(m.Rate, m.Viscosity), laid, w.Task.Room, plan.End[len(plan.End)-1])
}

// layers are those of a winding, not yet laid.
func layers(w *schedule.Winding) []laying {
	list := make([]laying, len(w.Laid))
	for i := range list {
		list[i].Thickness, list[i].FibreVolume = laminate(w, i)
	}
	return list
}

// blend moves a state towards another by a share.
func blend(s, to vessel.State, share float64) vessel.State {
	s.Alpha += share * (to.Alpha - s.Alpha)
	s.Phi += share * (to.Phi - s.Phi)
	s.LogExcess += share * (to.LogExcess - s.LogExcess)
	return s
}

// mostLifts is into how many stretches a winding of many layers is put together.
const mostLifts = 24

// lifts puts layers together where there are more than n, each the mean of those in it: fibre
// by thickness, states by resin. The last layer stays alone: it is the youngest, and gels
// last.
func lifts(laid []laying, n int) []laying {
	last := len(laid) - 1
	if last < n {
		return laid
	}
	list := make([]laying, n)
	resin := make([]float64, n)
	for i, l := range laid {
		k := i * (n - 1) / last
		into := &list[k]
		holds := float64(l.Thickness) * (1 - float64(l.FibreVolume))
		resin[k] += holds
		share := holds / resin[k]
		into.at += (l.at - into.at) * quantity.Time(share)
		into.State = blend(into.State, l.State, share)
		into.State.Temperature += (l.State.Temperature - into.State.Temperature) * quantity.Temperature(share)
		into.Thickness += l.Thickness
		into.FibreVolume += (l.FibreVolume - into.FibreVolume) * quantity.Fraction(l.Thickness/into.Thickness)
	}
	return list
}

// lumped is the laminate in n layers at most.
func (h *History) lumped(n int) *History {
	laid := make([]laying, len(h.Layers))
	for i, l := range h.Layers {
		laid[i].Layer = l
	}
	few := &History{Wound: h.Wound, Mandrel: h.Mandrel}
	for _, l := range lifts(laid, n) {
		few.Layers = append(few.Layers, l.Layer)
	}
	return few
}

// grown lets the wall grow layer by layer, each on those below it, which warm and age
// meanwhile, until the last is down. Each is laid at the room's temperature; the bore has
// the mandrel's.
func grown(w *schedule.Winding, r kinetics.Resin, laid []laying, room vessel.Series, wound quantity.Time) (*History, error) {
	laid = lifts(laid, mostLifts)
	h := &History{Wound: wound, Mandrel: w.Task.Limits.Mandrel.At(laid[0].at)}
	var profile still.Profile
	m := &w.Job.Mandrel
	for i, l := range laid {
		l.State.Temperature = room.At(l.at)
		h.Layers = append(h.Layers, l.Layer)
		until := wound
		if i+1 < len(laid) {
			until = laid[i+1].at
		}
		grid := newWall(h, m, &w.Job.Fibre, &r, growing)
		body := grid.body
		body.Outside = roomLoss
		pot, err := still.New(r, body, room, w.Task.Limits.Mandrel, still.Working)
		if err != nil {
			return nil, fmt.Errorf("layer %d on the mandrel: %w", i+1, err)
		}
		if i == 0 {
			if profile, err = pot.ByLayer(grid.states); err != nil {
				return nil, err
			}
		} else {
			profile = append(profile, l.State)
		}
		if until > l.at {
			if profile, err = pot.Advance(profile, l.at, until); err != nil {
				return nil, fmt.Errorf("layer %d on the mandrel: %w", i+1, err)
			}
		}
	}
	first := len(profile) - len(h.Layers)
	for i := range h.Layers {
		h.Layers[i].State = profile[first+i]
	}
	h.Mandrel = 0
	for _, s := range profile[:first] {
		h.Mandrel += s.Temperature / quantity.Temperature(first)
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
