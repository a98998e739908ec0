package batches

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// EnoughMembers is the share of the ensemble that must keep every limit and the
// reserve for a plan to be feasible.
const EnoughMembers = 0.9

// Seed is what every ensemble of a plan is drawn from.
const Seed = 1

// Sizes of the ensemble that judges a plan: a long winding is judged by fewer,
// so that judging costs no more than searching.
const (
	mostMembers   = 240
	fewestMembers = 60
	memberUnits   = 36_000 // members times units
)

// Members is the ensemble that judges plans of the task.
func (t *Task) Members() []ensemble.Member {
	if t.Drawn != nil {
		return t.Drawn
	}
	n := min(mostMembers, max(fewestMembers, memberUnits/len(t.Units)))
	return ensemble.Draw(t.Spread, n, Seed)
}

// Sample is an ensemble of n members at most, for what need not be judged:
// some of those drawn, evenly, or others from the same spread.
func (t *Task) Sample(n int) []ensemble.Member {
	switch {
	case t.Drawn == nil:
		return ensemble.Draw(t.Spread, n, Seed)
	case len(t.Drawn) <= n:
		return t.Drawn
	}
	list := make([]ensemble.Member, n)
	for i := range list {
		list[i] = t.Drawn[i*len(t.Drawn)/n]
	}
	return list
}

// A Solution is what [Solve] finds.
type Solution struct {
	Plan   *Plan   // nil: none
	Breach *Breach // why there is none, or why the plan is not feasible
	Chance Chance  // of the plan
	Tally  *Tally  // what the referee saw of it
	Coarse bool    // searched in a grain coarser than fine
}

// Feasible tells whether there is a plan that enough of the ensemble keeps.
func (s *Solution) Feasible() bool { return s.Plan != nil && s.Breach == nil }

// Chance is what an ensemble thinks of a plan.
type Chance struct {
	KeepsLimits float64 // share of members that pass no limit
	KeepsAll    float64 // share that keeps the limits and the reserve
}

// Solve returns the best plan of the family that enough of the ensemble keeps.
// Without one, the solution has the breach that went furthest and, where only
// the ensemble objects, the best plan it objects to. An error is a simulation
// that failed.
func Solve(t *Task) (*Solution, error) {
	members := t.Members()
	l := newLadder(t)
	searcher, best, known := newSearcher(t), &Solution{}, t.Belief()
	slope, err := t.shorterLife()
	if err != nil {
		return nil, err
	}
	for {
		sure := known.Worst(l.z, slope)
		plan, tally, breach, err := searcher.confirmed(sure)
		if err != nil {
			return nil, err
		}
		if plan == nil {
			if best.Plan == nil {
				best.Breach = breach
			}
			if !l.down() {
				best.Coarse = searcher.grain > 0
				return best, nil
			}
			continue
		}
		chance, common, err := Judge(t, plan, members)
		if err != nil {
			return nil, err
		}
		now := &Solution{Plan: plan, Chance: chance, Tally: tally}
		if chance.KeepsAll >= EnoughMembers && len(tally.Broken) == 0 {
			return now, nil
		}
		now.Breach = &Breach{Why: ByReferee}
		if common != nil {
			common.Most, common.Why, now.Breach = common.Why, ByChance, common
		}
		if best.Plan == nil || chance.KeepsAll > best.Chance.KeepsAll {
			best = now
		}
		if !l.up() {
			return best, nil
		}
	}
}

// confirmed returns the best plan for one bath, with what the referee saw of it.
// The search asks for the life left at each pour and before the next; where the
// referee finds that it dips below the reserve in between, as it can where the
// tow warms or thins the bath, the search is repeated asking oftener, at last at
// the referee's own moments.
func (r *searcher) confirmed(sure Sure) (*Plan, *Tally, *Breach, error) {
	for {
		found, breach, err := r.best(sure, asking[r.asking])
		if found == nil || err != nil {
			return nil, nil, breach, err
		}
		plan := found.plan(r.task, sure)
		tally, err := Referee(r.task, plan)
		if err == nil && r.task.Bath.Vessel.Drum != vessel.DrumAlways {
			plan.Score.Spare = tally.Score.Spare // the search's is of lives a little short
		}
		if err != nil || len(tally.Broken) == 0 || r.asking == len(asking)-1 {
			return plan, tally, nil, err
		}
		r.asking++
	}
}

// asking is how often the search asks, see [crew.moments], from seldom to as
// often as the referee.
var asking = []int{0, 1, refereeMoments}

// plan collects the pours and times that led to a complete position.
func (p *position) plan(t *Task, sure Sure) *Plan {
	plan := &Plan{Score: p.score, Member: sure, Coarse: p.coarse}
	var legs []*position
	for q := p; q.parent != nil; q = q.parent {
		legs = append(legs, q)
	}
	for i := len(legs) - 1; i >= 0; i-- {
		plan.Pours = append(plan.Pours, legs[i].pour)
		for _, unit := range legs[i].times {
			plan.Start = append(plan.Start, quantity.Time(unit.start))
			plan.End = append(plan.End, quantity.Time(unit.end))
		}
	}
	return plan
}

// follow repeats a plan with this crew. A reserve that is broken does not end
// it: a limit passed later weighs more.
func (c *crew) follow(plan *Plan) (*Breach, error) {
	at, err := c.begin()
	if err != nil {
		return nil, err
	}
	var reserve *Breach
	for i, pour := range plan.Pours {
		to := len(c.task.Units)
		if i+1 < len(plan.Pours) {
			to = plan.Pours[i+1].Stop
		}
		l := leg{crew: c, from: at, into: pour.Into, to: to, lenient: true}
		if i+1 < len(plan.Pours) {
			l.wait = float64(plan.Pours[i+1].At - plan.End[to-1])
		}
		breach, err := l.run(pour)
		if err != nil || breach != nil {
			return breach, err
		}
		if reserve == nil {
			reserve = l.reserveBroken
		}
		next := l.p
		at = &next
	}
	return reserve, nil
}
