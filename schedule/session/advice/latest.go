package advice

import (
	"math"

	"potlife/kinetics/quantity"
)

// actBefore sets the latest time to act on the advice.
func (n *now) actBefore(fits verdict) error {
	a := &n.answer
	var err error
	switch a.Rule {
	case AllWound, StillTooThick, NothingFits:
		if a.Filled && a.Rule != StillTooThick {
			a.ActBefore = a.Now + a.StoppedSure // to empty the bath while it pours
		}
	case EmptyBath:
		for _, cup := range a.Cups {
			if cup.Usable {
				a.ActBefore = a.Now + cup.LeftSure
				break
			}
		}
	case PastLimit, AllButEmpty:
		a.ActBefore = a.Now
	case Fits, OnReserve:
		if a.Running {
			a.ActBefore = a.Now + min(n.spare(a.Rule), max(0, n.runsOut()-n.script.Task.Pots.Mixing))
			break
		}
		fit, count := n.fit(fits), max(n.target, n.inHandEnds())
		a.ActBefore, err = n.latest(func(delay quantity.Time) (bool, error) {
			v, err := n.all(n.waits(delay), min(count, n.lasts(n.mass())))
			return n.fit(v) >= fit, err
		})
	case TopUpFits:
		if a.Running {
			n.beforeItRunsOut()
			break
		}
		a.ActBefore, err = n.latest(func(delay quantity.Time) (bool, error) {
			v, err := n.all(n.topUp(a.Pour, delay), a.Pour.Goals)
			return v.reserve >= a.Pour.Goals, err
		})
	case StopFirst:
		a.ActBefore = a.Now + n.spare(Fits)
	case ChangeFits:
		a.ActBefore = a.Now + a.StoppedSure
	}
	if math.IsInf(float64(a.ActBefore), 1) {
		a.ActBefore = unset
	}
	return err
}

// spare is how much of what is surely left is beyond the reserve, or may be spent where the
// layer is finished on it.
func (n *now) spare(rule Rule) quantity.Time {
	if rule == OnReserve {
		return n.answer.LeftSure
	}
	return max(0, n.answer.LeftSure-n.answer.Reserve)
}

// beforeItRunsOut is when a pot must be begun while the tow runs: in time to be poured
// before the bath is down to its lowest, and before the reserve is broken.
func (n *now) beforeItRunsOut() {
	a := &n.answer
	a.ActBefore = a.Now + max(0, min(n.runsOut(), n.spare(Fits))-n.mixing(a.Pour))
}

// runsOut is when the tow, which runs, has drawn the bath down to its lowest; +Inf if the
// resin lasts to the end of the layer in hand, where there is a pause to pour in.
func (n *now) runsOut() quantity.Time {
	ends := n.inHandEnds()
	if n.lasts(n.mass()) >= ends {
		return quantity.Time(math.Inf(1))
	}
	have, out := max(0, n.mass()-n.script.Task.Bath.Lowest), quantity.Time(0)
	for _, g := range n.goals[:ends] {
		if g.Resin > have {
			return out + quantity.Time(have/g.Resin)*g.Time
		}
		have, out = have-g.Resin, out+g.Time
	}
	return out
}

// closeEnough is how well the latest moment is known: a crew reads minutes.
const closeEnough quantity.Time = 15

// latest finds how long one can wait and it still holds; it holds without waiting.
func (n *now) latest(holds func(delay quantity.Time) (bool, error)) (quantity.Time, error) {
	low, high := quantity.Time(0), n.answer.StoppedSure
	if math.IsInf(float64(high), 1) {
		high = horizon
	}
	for high-low > closeEnough {
		middle := (low + high) / 2
		still, err := holds(middle)
		if err != nil {
			return unset, err
		}
		if still {
			low = middle
		} else {
			high = middle
		}
	}
	return n.answer.Now + low, nil
}
