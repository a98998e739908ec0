package batches

import (
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// chooseStops thins the stops that the grain considers: between two of them the
// winding takes no more than its share of a full bath, and of the life of a bath
// so low that it hardly warms itself, unless a single unit does.
func (s *search) chooseStops() error {
	parts := float64(s.grain.perBath)
	if parts == 0 {
		return nil
	}
	t := s.task
	low := vessel.State{Mass: t.Bath.Lowest, Temperature: t.mixedAt(float64(t.Begin.At), s.crew.member.Mixed)}
	life, _, err := s.crew.life(low, float64(t.Begin.At), lifeHorizon)
	if err != nil {
		return err
	}
	mostResin := float64(t.Bath.Highest-t.Bath.Lowest) / parts
	mostTime := math.Max(life, float64(t.Reserve)) / parts
	resin, time := 0.0, 0.0
	for i := range t.Units {
		resin += float64(t.Units[i].Resin)
		time += float64(t.Units[i].Time + quantity.Time(t.pauseAfter(i+1)))
		last := i+1 == len(t.Units)
		if last || resin+float64(t.Units[i+1].Resin) > mostResin || time+float64(t.Units[i+1].Time) > mostTime {
			s.stops = append(s.stops, i+1)
			resin, time = 0, 0
		}
	}
	return s.addStopsOfHeel()
}

// addStopsOfHeel adds, where the plan begins with a filled bath, the two stops
// at which the crew would first think of pouring: after the first unit, which
// may be the rest of a layer, and as far as the resin in the bath lasts.
func (s *search) addStopsOfHeel() error {
	if !s.task.Begin.Filled {
		return nil
	}
	start, err := s.crew.begin()
	if err != nil {
		return err
	}
	lasts := 1
	for lasts < s.total {
		if _, breach := s.task.justEnough(start, None, lasts+1); breach != nil {
			break
		}
		lasts++
	}
	s.stops = append(s.stops, 1, lasts)
	slices.Sort(s.stops)
	s.stops = slices.Compact(s.stops)
	return nil
}

// nextStop is the first stop considered after stop; past the end it stays there.
func (s *search) nextStop(stop int) int {
	if stop >= s.total {
		return s.total
	}
	if s.stops == nil {
		return stop + 1
	}
	i, found := slices.BinarySearch(s.stops, stop)
	if found {
		i++
	}
	return s.stops[min(i, len(s.stops)-1)]
}
