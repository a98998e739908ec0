package batches

import "potlife/kinetics/quantity"

// after is the same leg, from a clean bath, after another position.
func (p *position) after(from *position) *position {
	next, before := *p, p.parent
	next.parent, next.covered = from, false
	next.score.Changes += from.score.Changes - before.score.Changes
	next.score.Gelled += from.score.Gelled - before.score.Gelled
	next.score.Pots += from.score.Pots - before.score.Pots
	next.cups += from.cups - before.cups
	next.dumped += from.dumped - before.dumped + float64(from.heel.Mass-before.heel.Mass)
	next.score.Waste = quantity.Mass(next.cups + next.dumped + float64(next.heel.Mass))
	next.score.Spare = min(from.score.Spare, next.ownSpare)
	next.shift(from.clock - before.clock)
	return &next
}

// shift moves the leg on the clock.
func (p *position) shift(by float64) {
	if by == 0 {
		return
	}
	p.clock += by
	p.mixedBy += by
	p.laidGels += by
	p.baseGels += by
	later := quantity.Time(by)
	pots := make([]MixedPot, len(p.pour.Pots))
	for i, pot := range p.pour.Pots {
		pot.MixAt += later
		pots[i] = pot
	}
	p.pour.Pots, p.pour.At, p.pour.Winds = pots, p.pour.At+later, p.pour.Winds+later
	times := make([]segment, len(p.times))
	for i, unit := range p.times {
		times[i] = segment{unit.start + by, unit.end + by}
	}
	p.times = times
}

// freshKey is what a leg from a clean bath depends on: times count from the
// clock, which itself matters only where a temperature changes with it.
type freshKey struct {
	stop, to                   int
	clock, mixedBy, laid, base float64
	standing                   bool // cups, of an age that goes by the clock
}

func (s *search) freshKey(p *position, to int) freshKey {
	key := freshKey{stop: p.stop, to: to, mixedBy: p.mixedBy - p.clock, laid: p.laidGels - p.clock, base: p.baseGels - p.clock}
	if key.standing = p.standing; !s.steady || p.standing {
		key.clock = p.clock
	}
	return key
}
