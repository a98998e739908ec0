package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/winding"
)

// How far each variant of a job goes: steps that a crew can take within an hour.
const (
	coolerResin quantity.TemperatureDifference = 5
	coolerRoom  quantity.TemperatureDifference = 4
	smallerPots                                = 2.0 / 3
	slowerRate                                 = 0.5
	fasterTow                                  = 1.25
)

// Variants are the same job done otherwise, for [batches.Help] to solve again.
// In the middle of a day it is too late for another hardener, and for what lays
// the whole winding anew.
func (w *Winding) Variants() []batches.Variant {
	list := []batches.Variant{
		{What: batches.Remedy{Kind: batches.ResinTemperature, By: -coolerResin}, Task: w.resinWarmerBy(-coolerResin)},
		{What: batches.Remedy{Kind: batches.RoomTemperature, By: -coolerRoom}, Task: w.roomWarmerBy(-coolerRoom)},
		{What: batches.Remedy{Kind: batches.PotSize, Times: smallerPots}, Task: w.variant(func(t *batches.Task) {
			t.Pots.Largest = max(t.Pots.Smallest, t.Pots.Largest*smallerPots)
			t.Bath.Highest = t.Bath.Lowest + (t.Bath.Highest-t.Bath.Lowest)*smallerPots
		})},
	}
	begun := w.Task.Begun()
	if !begun {
		list = append(list, batches.Variant{What: batches.Remedy{Kind: batches.HardenerRate, Times: slowerRate}, Task: w.variant(func(t *batches.Task) {
			t.Resin = t.Resin.Adjusted(slowerRate, 1)
		})}, batches.Variant{What: batches.Remedy{Kind: batches.TowSpeed, Times: fasterTow}, Task: w.fasterTow()})
	}
	list = append(list,
		batches.Variant{What: batches.Remedy{Kind: batches.ResinTemperature, By: coolerResin}, LastResort: true, Task: w.resinWarmerBy(coolerResin)},
		batches.Variant{What: batches.Remedy{Kind: batches.RoomTemperature, By: coolerRoom}, LastResort: true, Task: w.roomWarmerBy(coolerRoom)})
	if !w.Job.Circuits && !begun {
		if t := w.atCircuits(); len(t.Units) <= mostHelpUnits {
			list = append(list, batches.Variant{What: batches.Remedy{Kind: batches.StopsInside}, Task: t, LastResort: true})
		}
	}
	return list
}

// mostHelpUnits bounds the stops of a variant: advice need not take longer than a plan,
// and nobody stops a machine so often.
const mostHelpUnits = 3_000

func (w *Winding) variant(change func(*batches.Task)) *batches.Task {
	t := *w.Task
	change(&t)
	return &t
}

func (w *Winding) resinWarmerBy(rise quantity.TemperatureDifference) *batches.Task {
	return w.variant(func(t *batches.Task) { t.ResinShift += rise })
}

// roomWarmerBy warms whatever follows the room.
func (w *Winding) roomWarmerBy(rise quantity.TemperatureDifference) *batches.Task {
	return w.variant(func(t *batches.Task) {
		t.Room = t.Room.Shifted(rise)
		if !w.Job.Bath.HasJacket {
			t.Wall = t.Room
		}
		if w.Job.Mandrel.Temperature == 0 {
			t.Limits.Mandrel = t.Room
		}
	})
}

// fasterTow lays the layers again: the spindle may not follow, and a measured
// layer takes its own time divided by the speed gained.
func (w *Winding) fasterTow() *batches.Task {
	job := *w.Job
	job.Machine.TowSpeed *= fasterTow
	job.Layers = append([]winding.Layer(nil), w.Job.Layers...)
	for i := range job.Layers {
		job.Layers[i].Time /= fasterTow
	}
	return job.task(w.Record, w.lay(&job))
}

// atCircuits is the same job with stops inside its layers.
func (w *Winding) atCircuits() *batches.Task { return w.refilled(true) }

// atLayers is the same job with stops at layer ends only; what is left of the
// layer in hand counts as one.
func (w *Winding) atLayers() *batches.Task {
	if !w.Task.Begun() {
		return w.refilled(false)
	}
	return w.variant(func(t *batches.Task) {
		var units []batches.Unit
		for i, u := range t.Units {
			if i > 0 && !t.Units[i-1].EndsLayer {
				last := units[len(units)-1]
				u.Time, u.Resin, u.FibreWeight = u.Time+last.Time, u.Resin+last.Resin, u.FibreWeight+last.FibreWeight
				units = units[:len(units)-1]
			}
			units = append(units, u)
		}
		t.Units = units
	})
}

// refilled is the same job with stops inside its layers, or without.
func (w *Winding) refilled(circuits bool) *batches.Task {
	job := *w.Job
	job.Circuits = circuits
	return job.task(w.Record, w.Laid)
}

// Solve plans the winding. Where it may be stopped inside its layers, the plan
// with stops at layer ends only is one more of those: the search of so many
// stops is coarse and can miss it. The winding's job and task are then those of the
// plan.
func (w *Winding) Solve() (*batches.Solution, error) {
	solution, err := batches.Solve(w.Task)
	if err != nil || !w.Job.Circuits {
		return solution, err
	}
	layers := w.atLayers()
	simpler, err := batches.Solve(layers)
	if err == nil && simpler.Feasible() && (!solution.Feasible() || !solution.Plan.Score.Better(simpler.Plan.Score)) {
		job := *w.Job
		job.Circuits = false
		w.Job, w.Task, solution = &job, layers, simpler
	}
	return solution, err
}
