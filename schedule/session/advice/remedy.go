package advice

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// tell lists the layers.
func (n *now) tell() {
	done := quantity.Time(0)
	for i := range n.goals {
		g := &n.goals[i]
		list := n.answer.Goals
		if k := len(list) - 1; k >= 0 && list[k].Layer == g.Layer {
			list[k].Needs += g.Time
		} else {
			n.answer.Goals = append(list, Goal{Layer: g.Layer, Needs: g.Time})
		}
		done += g.Time
		if g.EndsLayer {
			n.answer.Goals[len(n.answer.Goals)-1].Done = done
			done += n.script.Task.Pause
		}
	}
}

// mark tells which layers fit, of which the first count goals do.
func (n *now) mark(count int) {
	for i := range n.goals[:count] {
		if !n.goals[i].EndsLayer {
			continue
		}
		for k := range n.answer.Goals {
			if n.answer.Goals[k].Layer == n.goals[i].Layer {
				n.answer.Goals[k].Fits = true
			}
		}
	}
}

// A way of pouring prepares a trial world by a remedy, after a delay.
type way func(r Remedy, delay quantity.Time) beginning

// patience is how many goals in a row may fail before larger pours are given up: more
// fresh resin can help an old heel, but not for long.
const patience = 3

// best is the remedy that goes farthest, with no goals if none reaches the target. One that
// is ready goes before one that has to be mixed: the machine can go on at once.
func (n *now) best(pour way, heel quantity.Mass) (Remedy, error) {
	found, failures := Remedy{}, 0
	for count := n.target; count <= len(n.goals) && failures < patience; count++ {
		r, possible := n.amount(heel, count)
		if !possible || found.Goals > 0 && len(found.Fresh) == 0 && len(r.Fresh) > 0 {
			break
		}
		v, err := n.all(pour(r, 0), count)
		if err != nil {
			return Remedy{}, err
		}
		if v.reserve < count {
			failures++
			continue
		}
		r.Goals, failures = count, 0
		found = r
	}
	return found, nil
}

// amount is just enough for the first count goals onto a heel: cups that stand first, fresh
// pots for the rest, and one of either at least. It is not possible if the bath cannot hold
// it.
func (n *now) amount(heel quantity.Mass, count int) (Remedy, bool) {
	t := n.script.Task
	kept := 1 - t.Pots.LeftInCup
	need := float64(t.Bath.Lowest+resin(n.goals, count)-heel) / kept
	r, poured := Remedy{}, 0.0
	for _, cup := range n.cups {
		if len(r.Cups) > 0 && need <= 0 {
			break
		}
		if float64(heel)+(poured+float64(cup.Mass()))*kept > float64(t.Bath.Highest) {
			continue
		}
		r.Cups = append(r.Cups, cup)
		need -= float64(cup.Mass())
		poured += float64(cup.Mass())
	}
	if len(r.Cups) == 0 || need*kept > shortage*float64(t.Bath.Lowest) {
		r.Fresh = t.Split(quantity.Mass(need))
		for _, pot := range r.Fresh {
			poured += float64(pot.Mass())
		}
	}
	return r, float64(heel)+poured*kept <= float64(t.Bath.Highest)*(1+1e-9)
}

// mixing is how long it takes until all pots can be poured: the cups that stand are mixed,
// perhaps since a moment ago, and the fresh ones follow one after another.
func (n *now) mixing(r Remedy) quantity.Time { return n.mixedBy(r, 0) }

// mixedBy is the same where somebody begins with it after a delay, in which what is mixed in cups
// already goes on.
func (n *now) mixedBy(r Remedy, delay quantity.Time) quantity.Time {
	t := n.script.Task
	ready := delay
	for _, cup := range r.Cups {
		ready = max(ready, cup.MixedAt+t.Pots.Mixing-n.script.Now)
	}
	return ready + quantity.Time(len(r.Fresh))*t.Pots.Mixing
}

// pouringTime is how long pouring all of them takes.
func (n *now) pouringTime(r Remedy) quantity.Time {
	return quantity.Time(len(r.Fresh)+len(r.Cups)) * n.script.Task.Bath.Pour
}

// topUp pours into what is there. Where the tow runs and somebody else can mix, it goes on
// meanwhile, to the end of the goal at most and while there is resin for it.
func (n *now) topUp(r Remedy, delay quantity.Time) beginning {
	return func(a *replay.Ahead) (wound float64, err error) {
		wait := n.mixedBy(r, delay)
		if n.answer.Running && n.script.Task.Pots.Helper {
			first := n.goals[0]
			wound = min(1, float64(wait/first.Time))
			if have := max(0, n.mass()-n.script.Task.Bath.Lowest); first.Resin > 0 {
				wound = min(wound, float64(have/first.Resin))
			}
			if err := a.Wind(share(first, wound)); err != nil {
				return wound, err
			}
			wait -= quantity.Time(wound) * first.Time
		}
		if err := a.Stand(a.Now() + wait); err != nil {
			return wound, err
		}
		if a.Ended() || a.TooOld(batches.HeelLimit) {
			a.GiveUp()
			return wound, nil
		}
		return wound, n.pourInto(a, r)
	}
}

// change dumps what is there, or fills an empty bath. After a delay the pots are begun;
// dumping and wiping take their time as they do in a plan.
func (n *now) change(r Remedy, delay quantity.Time) beginning {
	t := n.script.Task
	wait := n.mixedBy(r, delay)
	if n.answer.Filled {
		dump := max(0, t.Bath.Change-n.pouringTime(r))
		if t.Pots.Helper {
			wait = max(wait, delay+dump)
		} else {
			wait += dump
		}
	}
	return func(a *replay.Ahead) (float64, error) {
		a.Dump()
		if err := a.Stand(a.Now() + wait); err != nil {
			return 0, err
		}
		return 0, n.pourInto(a, r)
	}
}

func (n *now) pourInto(a *replay.Ahead, r Remedy) error {
	mixedAt := make([]quantity.Time, len(r.Fresh))
	for i := range mixedAt {
		mixedAt[i] = a.Now() - quantity.Time(len(r.Fresh)-i)*n.script.Task.Pots.Mixing
	}
	if err := a.Pour(r.Cups, r.Fresh, mixedAt); err != nil {
		return err
	}
	return a.Stand(a.Now() + n.pouringTime(r))
}

// Grams sums up the parts of the fresh pots.
func (r *Remedy) Grams() (resin, hardener quantity.Mass) {
	for _, pot := range r.Fresh {
		resin += pot.Resin
		hardener += pot.Hardener
	}
	return resin, hardener
}

// Needed tells whether anything is to be poured.
func (r *Remedy) Needed() bool { return len(r.Cups)+len(r.Fresh) > 0 }
