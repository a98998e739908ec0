package advice

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// trials is how many worlds an advice is tried on: they stand for all, and a share of nine
// in ten is told to three in a hundred.
const trials = 100

// shortage is how much less resin than reckoned may be in the bath without a layer being
// called short of it, as a share of its lowest mass: drips and the scales.
const shortage = 0.05

// lasts is how many goals the resin in the bath is enough for, all worlds alike.
func (n *now) lasts(mass quantity.Mass) int {
	t := n.script.Task
	have := mass - t.Bath.Lowest + shortage*t.Bath.Lowest
	for i := range n.goals {
		if have -= n.goals[i].Resin; have < 0 {
			return i
		}
	}
	return len(n.goals)
}

// A verdict is what became of one world on its way through the goals: how many it reached
// within the limits, and how many with the reserve.
type verdict struct{ limits, reserve int }

// course follows one world through at most the first count goals, of the first of which a
// share is wound already.
func (n *now) course(a *replay.Ahead, wound float64, count int) (verdict, error) {
	t := n.script.Task
	v, reserve := verdict{}, true
	if n.script.InHand() == nil && !a.Ended() { // the reserve may be spent on a layer in hand, not on the next
		needed, err := a.Reserve()
		if err != nil {
			return v, err
		}
		left, _, err := a.Left(needed + 1) // the tow may stop before it has drawn or cooled anything
		if reserve = left >= needed; err != nil {
			return v, err
		}
	}
	for i := range n.goals[:count] {
		if a.Ended() {
			break
		}
		part := n.goals[i]
		if i == 0 {
			part = share(part, 1-wound)
		}
		if err := a.Wind(part); err != nil {
			return v, err
		}
		if a.Ended() {
			break
		}
		pause := quantity.Time(0)
		if n.goals[i].EndsLayer && i+1 < len(n.goals) {
			pause = t.Pause
		}
		needed, err := a.Reserve()
		if err != nil {
			return v, err
		}
		left, _, err := a.Left(needed + pause + 1)
		if err != nil {
			return v, err
		}
		v.limits = i + 1
		if reserve = reserve && left >= needed; reserve {
			v.reserve = i + 1
		}
		if err := a.Stand(a.Now() + pause); err != nil {
			return v, err
		}
	}
	return v, nil
}

// A beginning prepares a trial world and tells which share of the first goal is wound
// by then.
type beginning func(a *replay.Ahead) (wound float64, err error)

// all follows every trial world from its beginning and tells how many goals enough of them
// reach.
func (n *now) all(begin beginning, count int) (verdict, error) {
	found := make([]verdict, len(n.few))
	err := ensemble.Each(len(n.few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		found[i], err = n.trial(n.few[i].World, begin, count)
		return err
	})
	if err != nil {
		return verdict{}, err
	}
	return verdict{
		limits:  n.enough(count, func(i int) int { return found[i].limits }),
		reserve: n.enough(count, func(i int) int { return found[i].reserve }),
	}, nil
}

// trial follows one world from its beginning.
func (n *now) trial(w *replay.World, begin beginning, count int) (verdict, error) {
	a := w.Ahead()
	wound, err := begin(a)
	if err != nil {
		return verdict{}, err
	}
	return n.course(a, wound, count)
}

// waits lets the bath stand for a while first.
func (n *now) waits(delay quantity.Time) beginning {
	return func(a *replay.Ahead) (float64, error) { return 0, a.Stand(a.Now() + delay) }
}

// enough is the farthest goal that enough of the worlds reach.
func (n *now) enough(count int, reached func(i int) int) int {
	for goal := count; goal > 0; goal-- {
		reach, total := 0.0, 0.0
		for i := range n.few {
			total += n.few[i].Weight
			if reached(i) >= goal {
				reach += n.few[i].Weight
			}
		}
		if reach >= batches.EnoughMembers*total {
			return goal
		}
	}
	return 0
}

// fit tells how what comes next fits. On the reserve it is all of the layer in hand that
// must: the reserve is there to finish it, not to stop again a few circuits later.
func (n *now) fit(v verdict) Fit {
	switch ends := n.inHandEnds(); {
	case v.reserve >= max(n.target, ends):
		return FitsWhole
	case n.script.InHand() != nil && v.limits >= ends:
		return FitsOnReserve
	case v.reserve >= n.target:
		return FitsForNow
	}
	return FitsNot
}
