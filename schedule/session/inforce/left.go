package inforce

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// A Rest is what is left of the plan in force at a moment of the day, timed anew from there.
type Rest struct {
	Kept   *session.Plan
	Seq    int            // of the event that keeps it; 0: it was derived
	Plan   *batches.Plan  // nil: it cannot be followed any more
	Chance batches.Chance // of those baths that it could be now
	Breach *batches.Breach
	margin float64
	jury   *batches.Jury // of the plan
}

// A few of the baths are asked first: where all of them keep the plan, the others are not asked. Of
// forty all keep one that 89 in 100 keep once in a hundred times; all but one, once in eighteen.
const (
	firstAsked   = 40
	enoughOfThem = 1 - 1e-9
)

// Holds tells whether enough of the baths that it could be now keep every limit and the reserve
// with what is left of the plan.
func (r *Rest) Holds() bool {
	return r != nil && r.Plan != nil && r.Chance.KeepsAll >= batches.EnoughMembers-r.margin
}

// margin is by how much fewer baths may keep a plan that is in force than must keep a new one: that
// was judged by other baths of the same spread, and a plan on the wall is not given up for what two
// ensembles differ by (three in a hundred), nor for a minute. Where a layer is about to begin with
// what is in the bath there is none: the reserve is not for that.
const margin = 0.05

// clearly tells whether so many of the baths keep what is left that no closer look would find
// otherwise.
func (r *Rest) clearly() bool { return r.Holds() && r.Chance.KeepsAll >= enoughOfThem }

// Of is what is left of the plan in force of a played day, whose rest is the winding given; nil
// where no plan is in force or nothing is left to be wound.
func Of(p *replay.Played, rest *schedule.Winding) (*Rest, error) {
	if p.Script.Plan.Plan == nil || len(rest.Task.Units) == 0 {
		return nil, nil
	}
	return follow(p, rest, p.Script.Plan, false)
}

// follow is what is left of a plan that an event keeps; own: it is no crew's but made here, a few
// minutes ago at most.
func follow(p *replay.Played, rest *schedule.Winding, kept session.Event, own bool) (*Rest, error) {
	r := &Rest{Kept: kept.Plan, Seq: kept.Seq}
	if p.Script.InHand() != nil || !p.Script.Filled() {
		r.margin = margin
	}
	pours := left(p.Script, rest, kept, own)
	if pours == nil {
		return r, nil
	}
	plan := batches.Resume(rest.Task, pours)
	if r.Breach = rest.Task.Amounts(plan, p.Worlds[0].Bath.Mass); r.Breach != nil {
		return r, nil
	}
	r.Plan, plan.Coarse = plan, kept.Plan.Coarse
	var err error
	r.jury = batches.NewJury(rest.Task, plan)
	r.Chance, r.Breach, err = r.jury.Judge(rest.Task.Sample(firstAsked))
	if err != nil || r.Chance.KeepsAll >= enoughOfThem {
		return r, err
	}
	r.Chance, r.Breach, err = r.jury.Judge(rest.Task.Members())
	return r, err
}

// Substitute is a plan of the rest where the one in force does not hold, made of the day as it was
// at a window's beginning and followed to now; nil: there is none that holds.
func Substitute(p *replay.Played, rest *schedule.Winding) (*Rest, error) {
	then, err := p.Script.AtWindow()
	if err != nil {
		return nil, err
	}
	begun, kept, err := asked(then, len(p.Cloud.Members))
	if err != nil || kept == nil {
		return nil, err
	}
	solution, err := begun.Solve()
	if err != nil || !solution.Feasible() {
		return nil, err
	}
	event := session.Event{Seq: p.Script.LastSeq()}
	if event.Plan, err = Keep(begun, solution, session.LimitBroken); err != nil {
		return nil, err
	}
	r, err := follow(p, rest, event, true)
	if err != nil || !r.Holds() {
		return nil, err
	}
	return r, nil
}

// Solve is what the day goes on by: what is left of the plan in force while it holds, unless a
// new plan of the rest saves a change, a layer on a gelled one or a pot.
func (r *Rest) Solve(p *replay.Played, rest *schedule.Winding) (*batches.Solution, error) {
	own := *rest // the search may take fewer stops than there are
	inForce := r.Holds()
	if r != nil && !inForce {
		other, err := Substitute(p, rest)
		if err != nil {
			return nil, err
		}
		r = other
	}
	found, err := rest.Solve()
	if err != nil || !r.Holds() {
		return found, err
	}
	chance, _, err := r.jury.Judge(own.Task.Members())
	if err != nil {
		return nil, err
	}
	member := own.Task.Likely()
	if found.Plan != nil {
		member = found.Plan.Member
	}
	kept, err := batches.Confirm(own.Task, r.Plan, member, chance)
	if err != nil || inForce && found.Feasible() && found.Plan.Score.Better(kept.Plan.Score) {
		return found, err
	}
	*rest = own
	return kept, nil
}

// left are the pours of a plan that are still to come, at the stops of the rest; nil: it cannot
// be followed any more. The pots mixed since the plan was made are its own, in their order.
func left(s *replay.Script, rest *schedule.Winding, kept session.Event, own bool) []batches.Pour {
	f := &follower{script: s, rest: rest, own: own}
	for i := range s.Pots {
		if s.Pots[i].Seq > kept.Seq && !s.Pots[i].Gone {
			f.mixed = append(f.mixed, &s.Pots[i])
		}
	}
	for i := range kept.Plan.Pours {
		if !f.follow(&kept.Plan.Pours[i]) {
			return nil
		}
	}
	filled := rest.Task.Begin.Filled
	if n := len(f.pours); n == 0 || f.pours[0].Stop > 0 {
		if !filled {
			return nil // the bath was emptied and the plan knows of no fill
		}
		f.pours = append([]batches.Pour{{Into: batches.None, At: rest.Task.Begin.At}}, f.pours...)
	}
	return f.pours
}

// A follower finds what is left of a plan, pour by pour.
type follower struct {
	script *replay.Script
	rest   *schedule.Winding
	own    bool          // see [follow]
	mixed  []*replay.Pot // since, not matched yet
	pours  []batches.Pour
}

// follow matches the next pour; false: it cannot be made any more.
func (f *follower) follow(kept *session.PlanPour) bool {
	task := f.rest.Task
	pour := batches.Pour{Into: batches.Into(kept.Into), At: elapsed(f.rest, kept.At)}
	poured := 0
	for i := range kept.Pots {
		mixed, known := f.pot(&kept.Pots[i])
		switch {
		case !known:
			return false // a cup that the plan pours was taken back
		case mixed == nil:
			pot := &kept.Pots[i]
			pour.Pots = append(pour.Pots, batches.MixedPot{Pot: resins.Pot{
				Resin: quantity.Mass(pot.ResinG / 1000), Hardener: quantity.Mass(pot.HardenerG / 1000),
			}})
		case mixed.Poured:
			poured++
		default:
			cup, usable := standing(task, mixed.Seq)
			if !usable {
				return false
			}
			pour.Pots = append(pour.Pots, cup)
		}
	}
	if len(pour.Pots) == 0 {
		return true // it is made, or was none
	}
	pour.Stop = stopOf(task.Units, kept.Layer-1, kept.Circuits)
	if pour.Stop >= len(task.Units) || !possible(&pour) {
		return false // of another hand
	}
	if pour.Stop == 0 && pour.Into == batches.Change && !f.own && f.missed(kept, len(pour.Pots)) {
		return false
	}
	if n := len(f.pours); n > 0 && f.pours[n-1].Stop >= pour.Stop {
		return false // two pours are due at once: one was left out
	}
	f.settle(&pour, poured > 0)
	f.pours = append(f.pours, pour)
	return pour.Stop == 0 || pour.Into != batches.Fill
}

// possible tells whether a pour is one that a plan can have.
func possible(p *batches.Pour) bool {
	for _, pot := range p.Pots {
		if !(pot.Resin > 0 && pot.Hardener > 0) {
			return false
		}
	}
	return p.Into == batches.Fill || p.Into == batches.TopUp || p.Into == batches.Change
}

// missed tells whether the machine wound on beyond the stop of a change for longer than its pots
// take to be mixed and poured: a crew that did so went its own way, and what was weighed for a
// clean bath is more than is needed now. What a top-up pours stays right: the bath has what was
// wound since the less.
func (f *follower) missed(kept *session.PlanPour, pots int) bool {
	task, laid := f.rest.Task, f.script.Winding.Laid
	since := quantity.Time(0)
	for i := max(0, kept.Layer-1); i <= task.Units[0].Layer; i++ {
		from, to := 0, laid[i].Circuits
		if i == kept.Layer-1 {
			from = kept.Circuits
		}
		if i == task.Units[0].Layer {
			to = wound(f.rest)
		}
		since += laid[i].Time * quantity.Time(float64(max(0, to-from))/float64(max(1, laid[i].Circuits)))
	}
	return since > quantity.Time(pots)*(task.Pots.Mixing+task.Bath.Pour)
}

// settle makes of a pour what it is by now: the bath may be emptied for it already, or a cup of
// it be poured.
func (f *follower) settle(pour *batches.Pour, begun bool) {
	if units := f.rest.Task.Units; !f.rest.Task.Begin.Filled && len(f.pours) == 0 && units[pour.Stop].Layer <= units[0].Layer+1 {
		pour.Stop = 0 // what little is left before it cannot be wound from an empty bath
	}
	if pour.Stop > 0 {
		return
	}
	switch filled := f.rest.Task.Begin.Filled; {
	case filled && (begun || pour.Into == batches.Fill):
		pour.Into = batches.TopUp
	case !filled && pour.Into != batches.Fill:
		pour.Into, pour.At = batches.Fill, 0
	}
}

// pot is the one that a plan's is by now: nil, still to be mixed. One that stood mixed when the
// plan was made may be unknown: it was taken back.
func (f *follower) pot(kept *session.PlanPot) (mixed *replay.Pot, known bool) {
	if kept.Pot == 0 {
		if len(f.mixed) == 0 {
			return nil, true
		}
		mixed, f.mixed = f.mixed[0], f.mixed[1:]
		return mixed, true
	}
	for i := range f.script.Pots {
		if f.script.Pots[i].Seq == kept.Pot {
			return &f.script.Pots[i], !f.script.Pots[i].Gone
		}
	}
	return nil, false
}

// standing is a cup with which the rest begins: one that can still be used.
func standing(t *batches.Task, seq int) (batches.MixedPot, bool) {
	for _, cup := range t.Begin.Cups {
		if cup.Seq == seq {
			return cup, true
		}
	}
	return batches.MixedPot{}, false
}
