package advice

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// share is a part of a goal.
func share(goal batches.Unit, of float64) batches.Unit {
	goal.Time *= quantity.Time(of)
	goal.Resin *= quantity.Mass(of)
	goal.FibreWeight *= quantity.Mass(of)
	return goal
}

// target is how many goals must be reached for carrying on to make sense: the next one, and
// where the tow runs as many as a pot takes to mix and pour.
func target(s *replay.Script, list []batches.Unit) int {
	if len(list) == 0 {
		return 0
	}
	if !s.Running() {
		return 1
	}
	lead := s.Task.Pots.Mixing + s.Task.Bath.Pour
	wound, drawn := quantity.Time(0), quantity.Mass(0)
	for i := range list {
		drawn += list[i].Resin
		if i > 0 && drawn > s.Task.Bath.Highest-s.Task.Bath.Lowest {
			return i // no bath holds more
		}
		wound += list[i].Time
		if wound >= lead || list[i].EndsLayer {
			return i + 1
		}
	}
	return len(list)
}

// inHandEnds is how many goals there are to the end of the layer that comes first.
func (n *now) inHandEnds() int {
	for i := range n.goals {
		if n.goals[i].EndsLayer {
			return i + 1
		}
	}
	return len(n.goals)
}

// resinLeft is how long the resin in the bath lasts, whatever its age.
func (n *now) resinLeft() Resin {
	r := Resin{Lasts: quantity.Time(math.Inf(1))}
	have, lasts := n.mass()-n.script.Task.Bath.Lowest, quantity.Time(0)
	wound := 0
	for i := range n.goals {
		g := &n.goals[i]
		if i > 0 && n.goals[i-1].EndsLayer {
			lasts += n.script.Task.Pause
			wound = 0
		}
		part := 1.0
		if g.Resin > have {
			part = max(0, float64(have/g.Resin))
		}
		of := n.circuits(i) - wound
		r.Layer, lasts = g.Layer, lasts+quantity.Time(part)*g.Time
		if part < 1 {
			r.Circuits += int(part * float64(of))
			r.Lasts = lasts
			return r
		}
		have -= g.Resin
		r.Circuits += of
		wound += of
	}
	return r
}

// circuits are those of the layer that are wound when a goal ends, of the layer in hand beyond
// those that are wound now.
func (n *now) circuits(i int) int {
	g := &n.goals[i]
	if l := n.script.InHand(); l != nil && l.Index == g.Layer {
		return g.Circuits - int(l.Wound()*float64(n.script.Winding.Laid[g.Layer].Circuits))
	}
	return g.Circuits
}

// resin is what the first n goals take.
func resin(list []batches.Unit, n int) quantity.Mass {
	sum := quantity.Mass(0)
	for i := range list[:n] {
		sum += list[i].Resin
	}
	return sum
}
