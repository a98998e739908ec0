package advice

import (
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

// resin is what the first n goals take.
func resin(list []batches.Unit, n int) quantity.Mass {
	sum := quantity.Mass(0)
	for i := range list[:n] {
		sum += list[i].Resin
	}
	return sum
}
