package still

import (
	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Stand is a bath while its tow stands. Where the drum turns on, or there is nothing but resin
// that a drum stirs, it is the bath of package vessel; else the resin lies still from then on, with
// one temperature at first, in a slab that its upright walls do not cool.
type Stand struct {
	bath  *vessel.Bath
	exact bool
}

// NewStand is for who asks thousands of times: its lives are those of the slab, up to 2 % shorter
// (a test holds it), by two unknowns more where its hottest place is inside, see
// [vessel.Bath.Standing].
func NewStand(resin kinetics.Resin, v vessel.Vessel, room, wall vessel.Series, p vessel.Precision) *Stand {
	return StandOf(vessel.New(resin, v, room, wall, p))
}

// StandOf is the stand of a bath, with which it shares its buffers.
func StandOf(b *vessel.Bath) *Stand { return &Stand{bath: b} }

// StandShort is as much as lives of [NewStand] are too short, as a share.
const StandShort = 0.02

// Exact is the stand with lives of the slab itself.
func (s *Stand) Exact() *Stand { return &Stand{bath: s.bath, exact: true} }

// standCells is how finely a slab is cut whose faces are not cooled hard: its lives err by less
// than 0.3 % (a test holds it).
const (
	standCells = 5
	smallBiot  = 0.7 // of half a depth
)

// Life is how long a bath lives from an elapsed time on if the tow stands.
func (s *Stand) Life(is vessel.State, from quantity.Time, l vessel.Limits, horizon quantity.Time) (vessel.Life, error) {
	if !s.bath.StandsStill() {
		return s.bath.Life(is, from, vessel.Tow{}, 0, l, horizon)
	}
	if !s.exact {
		if life, ok, err := s.bath.Standing(is, from, l, horizon); ok || err != nil {
			return life, err
		}
	}
	pot, err := s.slab(&is)
	if err != nil {
		return vessel.Life{}, err
	}
	life, err := pot.Life(is, from, l, horizon)
	if err != nil || l.Clean == vessel.Uncleaned || life.Left <= 0 {
		return life, err
	}
	return s.cleaned(life, is, from, l, min(horizon, life.Left))
}

// cleaned is a life that what sticks in the vessel may end before. It sits all over the vessel, and
// is as warm as the bath would be on the whole.
func (s *Stand) cleaned(life vessel.Life, is vessel.State, from quantity.Time, l vessel.Limits, horizon quantity.Time) (vessel.Life, error) {
	const never = 1e12 // Pa·s and K
	l.BathViscosity, l.LaidViscosity, l.BathTemperature = never, never, never
	stuck, err := s.bath.Life(is, from, vessel.Tow{}, 0, l, horizon)
	if err == nil && stuck.EndsBy == vessel.NotClean && stuck.Left < life.Left {
		life.Left, life.EndsBy = stuck.Left, stuck.EndsBy
	}
	return life, err
}

// Milestones is what it passes.
func (s *Stand) Milestones(is vessel.State, from, horizon quantity.Time) (vessel.Milestones, error) {
	if !s.bath.StandsStill() {
		return s.bath.Milestones(is, from, horizon)
	}
	pot, err := s.slab(&is)
	if err != nil {
		return vessel.Milestones{}, err
	}
	return pot.Milestones(is, from, horizon)
}

// Inside is what it is at a later moment, as [Pot.Probe] sees it.
func (s *Stand) Inside(is vessel.State, from, to quantity.Time) (vessel.State, error) {
	if !s.bath.StandsStill() || !(to > from) {
		return s.bath.Advance(is, from, to, vessel.Tow{})
	}
	pot, err := s.slab(&is)
	if err != nil {
		return is, err
	}
	start, err := pot.Uniform(is)
	if err != nil {
		return is, err
	}
	seen, err := pot.Probe(start, from, to, 0)
	if err != nil {
		return is, err
	}
	return seen[len(seen)-1].State, nil
}

func (s *Stand) slab(is *vessel.State) (*Pot, error) {
	v, r, p := s.bath.Vessel(), s.bath.Resin(), Working
	p.From = is.Temperature
	if biot(max(v.SurfaceLoss, v.FloorLoss), v.Depth(is.Mass, r.Density), r.Conductivity) < smallBiot {
		p.Cells = standCells
	}
	return New(*r, Tray{Vessel: v, Mass: is.Mass}, s.bath.Room(), s.bath.Wall(), p)
}
