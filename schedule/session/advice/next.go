package advice

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// next is what a plan of the rest pours next; nil: nothing any more.
func (n *now) next(task *batches.Task, plan *batches.Plan) (*Next, error) {
	pour, lasts := plan.NextPour(len(task.Units))
	if pour == nil {
		return nil, nil
	}
	a := &n.answer
	next := &Next{Into: pour.Into, At: pour.At, MixAt: pour.At, now: pour.Stop == 0}
	next.Layer = task.Units[pour.Stop].Layer
	if pour.Stop > 0 && !task.Units[pour.Stop-1].EndsLayer {
		next.Circuit = task.Units[pour.Stop-1].Circuits
	}
	next.Pour.Goals = lasts
	standing := n.script.Standing()
	for _, pot := range pour.Pots {
		next.MixAt = min(next.MixAt, max(pot.MixAt, a.Now))
		if pot.Seq == 0 {
			next.Pour.Fresh = append(next.Pour.Fresh, pot.Pot)
			continue
		}
		for _, cup := range standing {
			if cup.Seq == pot.Seq {
				next.Pour.Cups = append(next.Pour.Cups, cup)
			}
		}
	}
	late, err := lateness(task, plan, pour)
	next.Latest = next.MixAt + late
	return next, err
}

// Due tells that the pour is for now: the machine stands where it goes in.
func (n *Next) Due() bool { return n.now }

// lateness is how much later the mixing for a pour may begin, on the bath on the bad side for
// which plans of the rest are made.
func lateness(task *batches.Task, plan *batches.Plan, pour *batches.Pour) (quantity.Time, error) {
	own := *plan
	if own.Member.Weight == 0 { // it was resumed
		var err error
		if own.Member, err = task.Sure(replay.OneInTen); err != nil {
			return 0, err
		}
	}
	tally, err := batches.Referee(task, &own)
	if err != nil {
		return 0, err
	}
	late, err := batches.Late(task, &own, tally)
	if err != nil {
		return 0, err
	}
	for i := range plan.Pours {
		if &plan.Pours[i] == pour {
			return late[i], nil
		}
	}
	return 0, nil
}

// lacks tells why the layers do not fit that do not: the first so many goals lack no resin.
func (n *now) lacks(bath BathState) {
	lasts := 0
	if bath != Empty {
		lasts = n.lasts(n.mass())
	}
	end := 0
	for k := range n.answer.Goals {
		g := &n.answer.Goals[k]
		for end < len(n.goals) && n.goals[end].Layer == g.Layer {
			end++
		}
		switch {
		case g.Fits:
		case bath == Past || end <= lasts:
			g.Lacks = LacksLife
		default:
			g.Lacks = LacksResin
		}
	}
}
