package advice

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/schedule/session/replay"
)

// A goal is the next place to which winding goes on without a stop.
type goal struct {
	replay.Part
	endsLayer bool
}

// share is a part of a goal.
func (g goal) share(of float64) replay.Part {
	g.Time *= quantity.Time(of)
	g.Resin *= quantity.Mass(of)
	g.Fibre *= quantity.Mass(of)
	return g.Part
}

// goals are what is still to be wound: layers, or stretches of circuits.
func goals(s *replay.Script) []goal {
	var list []goal
	for _, part := range s.Rest() {
		n := pieces(s, &part)
		for i := range n {
			piece := part
			piece.Time /= quantity.Time(n)
			piece.Resin /= quantity.Mass(n)
			piece.Fibre /= quantity.Mass(n)
			list = append(list, goal{piece, i == n-1})
		}
	}
	return list
}

// pieces is how many stretches a part has: as many as the plan stops at in the layer, in
// proportion for a rest.
func pieces(s *replay.Script, part *replay.Part) int {
	units := 0
	for i := range s.Task.Units {
		if s.Task.Units[i].Layer == part.Layer {
			units++
		}
	}
	whole := s.Winding.Laid[part.Layer].Resin
	if !part.Rest || whole <= 0 {
		return max(1, units)
	}
	return max(1, int(math.Ceil(float64(units)*float64(part.Resin/whole)-1e-9)))
}

// target is how many goals must be reached for carrying on to make sense: the next one,
// and where the tow runs as many as a pot takes to mix and pour.
func target(s *replay.Script, list []goal) int {
	if len(list) == 0 {
		return 0
	}
	if !s.Running() {
		return 1
	}
	lead := s.Task.Pots.Mixing + s.Task.Bath.Pour
	wound := quantity.Time(0)
	for i := range list {
		wound += list[i].Time
		if wound >= lead || list[i].endsLayer {
			return i + 1
		}
	}
	return len(list)
}

// resin is what the first n goals take.
func resin(list []goal, n int) quantity.Mass {
	sum := quantity.Mass(0)
	for i := range list[:n] {
		sum += list[i].Resin
	}
	return sum
}
