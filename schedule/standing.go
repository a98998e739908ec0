package schedule

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// lifeCells is how finely the still cups of an ensemble are cut: a life errs by 1 % at
// most (a test of package resins holds it), a tenth of what a measured record is good
// for; that of a bucket whose skin a hot room warms may be 4 % too short. The nominal cup, from which all other figures come, has the grid that package
// still chooses.
const lifeCells = 5

// peakTighter is how much smaller the errors of steps are than usual where a peak is flat:
// that of resin that hardly warms is within a hundredth of a kelvin for half an hour, and the
// usual errors move its moment by as much.
const peakTighter = 10

// A stander is resin that stands in a vessel.
type stander interface {
	Life(limits vessel.Limits) (vessel.Life, error)
	Milestones() (vessel.Milestones, error)
}

// stirred resin has one temperature.
type stirred struct {
	bath  *vessel.Bath
	fresh vessel.State
}

func (s stirred) Life(l vessel.Limits) (vessel.Life, error) {
	return s.bath.Life(s.fresh, 0, vessel.Tow{}, 0, l, WorktimeHorizon)
}

func (s stirred) Milestones() (vessel.Milestones, error) {
	return s.bath.Milestones(s.fresh, 0, WorktimeHorizon)
}

// unstirred resin is hotter inside.
type unstirred struct {
	pot   *still.Pot
	fresh vessel.State
}

func (s unstirred) Life(l vessel.Limits) (vessel.Life, error) {
	life, err := s.pot.Life(s.fresh, 0, l, WorktimeHorizon)
	if clean := quantity.Time(l.Clean); err == nil && clean > 0 && clean < life.Left {
		life.Left, life.EndsBy = clean, vessel.NotClean
	}
	return life, err
}

func (s unstirred) Milestones() (vessel.Milestones, error) {
	return s.pot.Milestones(s.fresh, 0, WorktimeHorizon)
}

// stander returns a member's resin in the vessel; cells is how finely a still cup is
// cut, 0 as finely as package still chooses, and tighter by how much smaller errors are
// than usual.
func (s *Standing) stander(m ensemble.Member, fresh vessel.State, cells int, tighter float64) (stander, error) {
	room, wall := s.surroundings()
	resin := s.Record.Kinetics.Adjusted(m.Rate, m.Viscosity)
	if s.Bath.Stirs(s.Mass, s.Record.Kinetics.Density) == vessel.DrumAlways {
		v := s.Bath.Vessel(s.Bath.HasJacket).LossesTimes(m.Loss)
		return stirred{vessel.New(resin, v, room, wall, vessel.Working.Tighter(tighter)), fresh}, nil
	}
	pot, err := still.New(resin, s.Bath.Body(s.Mass, m.Loss, s.Bath.HasJacket), room, wall, s.Bath.Grid(cells, fresh.Temperature).Tighter(tighter))
	return unstirred{pot, fresh}, err
}

// milestones are those of the nominal resin, followed again more closely where it does not
// run away.
func (s *Standing) milestones(nominal stander, fresh vessel.State) (vessel.Milestones, error) {
	found, err := nominal.Milestones()
	room, wall := s.surroundings()
	around := max(room.Highest(), wall.Highest(), fresh.Temperature)
	if err != nil || found.Peak > around+quantity.Temperature(still.RunawayRise) {
		return found, err
	}
	closer, err := s.stander(ensemble.Nominal(), fresh, 0, peakTighter)
	if err != nil {
		return vessel.Milestones{}, err
	}
	return closer.Milestones()
}

// surroundings are the room and what is beyond floor and walls.
func (s *Standing) surroundings() (room, wall vessel.Series) {
	room = vessel.Constant(s.Room)
	wall = room
	if s.Bath.HasJacket {
		wall, _ = s.Bath.Jacket.Series()
	}
	return room, wall
}

// fresh is the resin when mixed.
func (s *Standing) fresh() vessel.State {
	f := vessel.State{Mass: s.Mass, Temperature: s.From}
	if f.Temperature == 0 {
		f.Temperature = s.Room
	}
	return f
}

// lives are the working lives of an ensemble, one for each member.
func (s *Standing) lives(fresh vessel.State, limits vessel.Limits) (*ensemble.Cloud, []float64, error) {
	spread := s.Record.Spread
	spread.Loss = s.Bath.LossSpread
	sampling := s.Sampling.orUsual()
	cloud := ensemble.Prior(spread, sampling.Members, sampling.Seed)
	lives := make([]float64, len(cloud.Members))
	err := ensemble.Each(len(lives), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		one, err := s.stander(cloud.Members[i], fresh, lifeCells, 1)
		if err != nil {
			return err
		}
		life, err := one.Life(limits)
		lives[i] = float64(life.Left)
		return err
	})
	return cloud, lives, err
}

// danger is what becomes of it if it is forgotten, the drum stopped.
func (s *Standing) danger(fresh vessel.State, limits vessel.Limits) (*Danger, error) {
	_, wall := s.surroundings()
	spread := s.Record.Spread
	spread.Loss = s.Bath.LossSpread
	f := forgotten{
		resin: s.Record.Kinetics, known: spread.Belief(), limit: limits.BathTemperature, in: s.Bath.Container, jacketed: s.Bath.HasJacket,
		room: s.Room, wall: wall.Highest(), from: func(ensemble.Member) quantity.Temperature { return fresh.Temperature },
	}
	return f.of(s.Mass)
}
