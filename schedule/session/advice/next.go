package advice

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/inforce"
)

// next is what the plan in force pours next, as long as what is left of it holds; else what the
// search finds for the best plan of the rest. It is skipped where there is nothing to wind or
// nothing to be done but to stop.
func (n *now) next() error {
	a := &n.answer
	if a.Situation.Wound || a.Situation.Bath == Thick || a.Rule == PastLimit && a.Running {
		return nil
	}
	rest := n.played.Begun(n.cups)
	var err error
	if a.Plan, err = inforce.Of(n.played, rest); err != nil {
		return err
	}
	var pour *batches.Pour
	lasts := 0
	if a.Plan.Holds() {
		pour, lasts = a.Plan.Next(len(rest.Task.Units))
	} else if pour, lasts, err = batches.NextPour(rest.Task); err != nil {
		return err
	}
	if pour == nil {
		return nil
	}
	next := &Next{Into: pour.Into, At: pour.At, MixAt: pour.At}
	next.Layer = rest.Task.Units[pour.Stop].Layer
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
	a.Next = next
	return nil
}

// soon is by when a pour that is begun now is made: its mixing, or the change.
func (n *now) soon(next *Next) quantity.Time {
	t := n.script.Task
	return n.mixing(next.Pour) + t.Bath.Change + t.Pause
}

// confirmed tells whether what the search found for one bath holds in enough of the worlds.
func (n *now) confirmed(pour way, next *Next) (bool, error) {
	v, err := n.all(pour(next.Pour, 0), n.target)
	return v.reserve >= n.target, err
}

// takes tells whether the next pour is the one advised.
func (next *Next) takes(advice Advice) bool {
	switch advice {
	case TopUp:
		return next.Into == batches.TopUp
	case Change:
		return next.Into == batches.Change || next.Into == batches.Fill
	}
	return false
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
