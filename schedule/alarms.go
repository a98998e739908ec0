package schedule

import (
	"fmt"
	"math"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule/batches"
)

// Alarms are what a plan holds in store beside its limits: resin that runs away if
// nobody pours it, and cups that end before they are poured.
type Alarms struct {
	Cautions []string
	Warnings []string
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
	if a.Cautions, err = w.forgotten(s); err != nil {
		return nil, err
	}
	a.Warnings, err = w.cupsThatEnd(s.Plan)
	return a, err
}

// cup is what the job's pots are mixed in.
func (j *Job) cup() resins.Container { return resins.Container{Cup: j.Pots.Cup} }

// forgotten tells what runs away if it is left alone.
func (w *Winding) forgotten(s *batches.Solution) ([]string, error) {
	j, t := w.Job, w.Task
	room, wall, _, _ := j.surroundings()
	f := forgotten{
		resin: t.Resin, worst: worstOf(t.Spread), in: j.cup(),
		room: room.Highest(), wall: room.Highest(), from: max(t.ResinAt, room.Highest()),
	}
	if t.Worse != nil { // readings know more
		f.worst = t.Worse(surelySafe)
	}
	pot, bath := quantity.Mass(0), quantity.Mass(0)
	for i := range s.Plan.Pours {
		for k := range s.Plan.Pours[i].Pots {
			pot = max(pot, s.Plan.Pours[i].Pots[k].Mass())
		}
		if s.Tally != nil {
			bath = max(bath, s.Tally.Pours[i].Bath)
		}
	}
	inCup, err := f.of(pot)
	if err != nil {
		return nil, err
	}
	f.in, f.jacketed, f.wall = j.Bath.Container, j.Bath.HasJacket, wall.Highest()
	standing, err := f.of(bath)
	if err != nil {
		return nil, err
	}
	return alarm(inCup, standing), nil
}

// alarm is one loud caution for pot and bath, so that it fits a page; none where neither
// is a danger.
func alarm(pot, bath *Danger) []string {
	var what, out []string
	if pot.Runs() {
		what = append(what, fmt.Sprintf("a pot of %s in its cup (up to %s cannot)", grams(pot.Mass), grams(pot.Safe)))
		way := "pour it or " + pot.WayOut("")
		if pot.nowhere() {
			way = "pour it at once; " + pot.WayOut("")
		}
		out = append(out, way)
	}
	if bath.Runs() {
		what = append(what, fmt.Sprintf("a bath of %s (up to %s cannot)", grams(bath.Mass), grams(bath.Safe)))
		out = append(out, "empty the bath if the day ends early")
	}
	if len(what) == 0 {
		return nil
	}
	return []string{"DANGER: left alone, " + strings.Join(what, " and ") + " can run away: " + strings.Join(out, "; ") + "."}
}

// grams prints a mass rounded down to what it must not be promised above.
func grams(m quantity.Mass) string {
	if g := m.In("g"); g < 10 {
		return fmt.Sprintf("%.1f g", math.Floor(g*10)/10)
	}
	return fmt.Sprintf("%.0f g", math.Floor(m.In("g")*(1+1e-12)))
}

// cupsThatEnd warns of pots that would not last in their cups until they are poured,
// with the reserve, in the sure world of the plan. Pots alike are followed once.
func (w *Winding) cupsThatEnd(plan *batches.Plan) ([]string, error) {
	t := w.Task
	type kind struct {
		mass  quantity.Mass
		mixed quantity.Temperature
	}
	lives := map[kind]vessel.Life{}
	var warnings []string
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
			warnings = append(warnings, fmt.Sprintf(
				"the pot of %s begun at %s lasts %.0f min in its cup for sure, and is poured after %.0f: with the reserve of %.0f min that is too long; mix less at a time, or cooler",
				grams(pot.Mass()), w.Job.Clock(pot.MixAt).Round(time.Minute).Format("15:04"), math.Floor(life.Left.In("min")), math.Ceil(stands.In("min")), t.Reserve.In("min")))
		}
	}
	if more > 0 {
		warnings = append(warnings, fmt.Sprintf("nor do %d more pots last in their cups until they are poured", more))
	}
	return warnings, nil
}

// mostCupsTold is how many pots are told one by one that do not last in their cups.
const mostCupsTold = 4

// lifeInCup is how long a pot lasts still in its cup from when it is mixed.
func (w *Winding) lifeInCup(plan *batches.Plan, pot *batches.MixedPot) (vessel.Life, error) {
	t := w.Task
	m := plan.Member
	in := w.Job.cup()
	cup, err := still.New(t.Resin.Adjusted(m.Rate, m.Viscosity), in.Body(pot.Mass(), m.Loss, false), t.Room, t.Room, in.Grid(lifeCells))
	if err != nil {
		return vessel.Life{}, err
	}
	const asFar = 86400 // s; no plan lets a pot stand for a day
	fresh := vessel.State{Temperature: t.MixedAt(pot.MixAt)}
	if pot.Mixed > 0 { // it stood mixed, and was told
		fresh.Temperature = pot.Mixed
	}
	return cup.Life(fresh, pot.MixAt, t.Limits, asFar)
}
