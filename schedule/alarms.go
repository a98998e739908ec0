package schedule

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/batches"
)

// Alarms are what a plan holds in store beside its limits: resin that runs away if
// nobody pours it, and cups that end before they are poured.
type Alarms struct {
	Pot      *Danger // of the heaviest pot, forgotten in its cup; nil without a plan
	Bath     *Danger // of the fullest bath
	Warnings []warning.Warning
}

// Alarms looks at the pots and the bath of a plan as they stand still. The search lets
// pots age in their cups as if they were stirred, which makes no difference that a
// crew could notice while a pot stands for minutes (a test measures it); whether a pot
// lasts in its cup until it is poured is decided by its hottest place, here.
func (w *Winding) Alarms(s *batches.Solution) (*Alarms, error) {
	a := &Alarms{}
	if s.Plan == nil {
		return a, nil
	}
	var err error
	if a.Pot, a.Bath, err = w.forgotten(s); err != nil {
		return nil, err
	}
	a.Warnings, err = w.cupsThatEnd(s.Plan)
	return a, err
}

// cup is what the job's pots are mixed in.
func (j *Job) cup() resins.Container {
	return resins.Container{Cup: j.Pots.Cup, StandsOn: j.Pots.StandsOn, FloorLoss: j.Pots.FloorLoss}
}

// forgotten judges the heaviest pot and the fullest bath left alone.
func (w *Winding) forgotten(s *batches.Solution) (inCup, standing *Danger, err error) {
	pot, bath := quantity.Mass(0), quantity.Mass(0)
	for i := range s.Plan.Pours {
		for k := range s.Plan.Pours[i].Pots {
			pot = max(pot, s.Plan.Pours[i].Pots[k].Mass())
		}
		if s.Tally != nil {
			bath = max(bath, s.Tally.Pours[i].Bath)
		}
	}
	err = ensemble.Together(
		func() (err error) {
			inCup, err = w.alone(InCup, 0).of(pot)
			return err
		},
		func() (err error) {
			standing, err = w.alone(InBath, 0).of(bath)
			return err
		})
	return inCup, standing, err
}

// Where is a vessel of a job.
type Where int

// The vessels.
const (
	InCup Where = iota
	InBath
)

// RunsAway tells whether a mass can run away that nobody touches any more, in a cup or in the bath
// of the job: freshly mixed, or as warm as it is where it is warmer than that. One in a
// hundred may.
func (w *Winding) RunsAway(where Where, mass quantity.Mass, is quantity.Temperature) (bool, error) {
	return w.alone(where, is).runs(mass)
}

// SpreadTo is how deep a mass as warm as this may lie on a bench without running away, and how wide
// a square tray it takes.
func (w *Winding) SpreadTo(mass quantity.Mass, is quantity.Temperature) (depth, side quantity.Length, err error) {
	f := w.alone(InCup, is)
	if depth, err = f.spread(); err != nil || depth <= 0 {
		return depth, 0, err
	}
	return depth, f.side(mass, depth), nil
}

// alone is what nobody touches any more.
func (w *Winding) alone(where Where, is quantity.Temperature) *forgotten {
	j, t := w.Job, w.Task
	f := &forgotten{
		resin: t.Resin, known: t.Belief(), limit: t.Limits.BathTemperature, in: j.cup(),
		room: t.Room.Highest(), wall: t.Room.Highest(),
		from: func(m ensemble.Member) quantity.Temperature {
			return max(t.WarmestMixed(m), t.Room.Highest(), is)
		},
	}
	if where == InBath {
		f.in, f.jacketed, f.wall = j.Bath.Container, j.Bath.HasJacket, t.Wall.Highest()
	}
	return f
}

// cupsThatEnd warns of pots that would not last in their cups until they are poured,
// with the reserve, in the sure world of the plan. Pots alike are followed once.
func (w *Winding) cupsThatEnd(plan *batches.Plan) ([]warning.Warning, error) {
	t := w.Task
	type kind struct {
		mass  quantity.Mass
		mixed quantity.Temperature
	}
	lives := map[kind]vessel.Life{}
	var warnings []warning.Warning
	more := 0
	for i := range plan.Pours {
		pour := &plan.Pours[i]
		for n := range pour.Pots {
			pot := &pour.Pots[n]
			k := kind{pot.Mass(), pot.Mixed}
			life, known := lives[k]
			if !known {
				var err error
				if life, err = w.lifeInCup(plan, pot); err != nil {
					return nil, err
				}
				lives[k] = life
			}
			stands := pour.At + t.Bath.Pour*quantity.Time(n+1) - pot.MixAt
			// A pot too thick when mixed is the plan's to judge, in the bath.
			if life.EndsBy == vessel.TooThick || life.Left >= stands+t.Reserve {
				continue
			}
			if len(warnings) == mostCupsTold {
				more++
				continue
			}
			warnings = append(warnings, PotEndsInCup{
				Pot: pot.Mass(), Begun: w.Job.Clock(pot.MixAt), Lasts: life.Left, Stands: stands, Reserve: t.Reserve,
			})
		}
	}
	if more > 0 {
		warnings = append(warnings, MorePotsEndInCups{more})
	}
	return warnings, nil
}

// mostCupsTold is how many pots are told one by one that do not last in their cups.
const mostCupsTold = 4

// lifeInCup is how long a pot lasts still in its cup from when it is mixed.
func (w *Winding) lifeInCup(plan *batches.Plan, pot *batches.MixedPot) (vessel.Life, error) {
	t := w.Task
	const asFar = 86400 // s; no plan lets a pot stand for a day
	m := plan.Member
	fresh := vessel.State{Temperature: t.PotMixedAt(pot, m)}
	in := w.Job.cup()
	cup, err := still.New(t.Resin.Adjusted(m.Rate, m.Viscosity), in.Body(pot.Mass(), m.Loss, false), t.Room, t.Room, in.Grid(lifeCells, fresh.Temperature))
	if err != nil {
		return vessel.Life{}, err
	}
	return cup.Life(fresh, pot.MixAt, t.Limits, asFar)
}
