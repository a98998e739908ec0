package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
)

// An Overfull is why a bath cannot hold what a layer takes.
type Overfull struct {
	Takes quantity.Mass // of resin, by what can be wound between two stops at best
	Holds quantity.Mass // of resin, between lowest and highest
	By    OverfullBy
}

// OverfullBy is what would have to be smaller.
type OverfullBy string

// What can be too much for a bath.
const (
	ByLayer   OverfullBy = "layer"   // stops inside it would do
	ByCircuit OverfullBy = "circuit" // even a single one
	ByPots    OverfullBy = "pots"    // the resin would fit, the pots that it comes in do not
)

// Overfull explains a breach by [batches.ByHighest].
func (w *Winding) Overfull(b *batches.Breach) Overfull {
	t := w.Task
	unit := &t.Units[min(b.Unit, len(t.Units)-1)]
	laid := &w.Laid[unit.Layer]
	o := Overfull{Takes: unit.Resin, Holds: t.Bath.Highest - t.Bath.Lowest, By: ByLayer}
	// What is poured is rounded up to the scale, part by part.
	kept := quantity.Mass(1 - t.Pots.LeftInCup)
	pots := t.Split((t.Bath.Lowest + unit.Resin) / kept)
	rounding := 2 * t.Pots.Step * quantity.Mass(len(pots))
	if unit.Resin <= o.Holds-rounding {
		o.By = ByPots
		return o
	}
	if circuit := laid.Resin / quantity.Mass(max(laid.Circuits, 1)); w.Job.Circuits || circuit > o.Holds {
		o.Takes, o.By = circuit, ByCircuit
	}
	return o
}
