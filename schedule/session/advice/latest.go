package advice

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// actBefore sets the latest time to act on the advice. It is one moment: where it has passed it
// stays where it was.
func (n *now) actBefore(fits verdict) error {
	a := &n.answer
	if !a.Filled && a.Rule != EmptyBath {
		return nil
	}
	var err error
	switch a.Rule {
	case DayOver, StillTooThick, OffRatio, BathFirst:
	case EmptyIt, NothingFits, ChangeFits:
		a.ActBefore = n.ends() // to empty the bath while it pours
	case EmptyBath:
		if cups := a.Pour.Cups; len(cups) > 0 {
			way := func(delay quantity.Time) beginning { return n.change(a.Pour, delay) }
			a.ActBefore, err = n.latestOf(way, a.Pour.Goals, n.keeps(cups), func(v verdict) bool { return v.reserve >= a.Pour.Goals })
		}
	case PotStands:
		way := func(delay quantity.Time) beginning { return n.topUp(a.Pour, delay) }
		a.ActBefore, err = n.latestOf(way, a.Pour.Goals, n.keeps(a.Pour.Cups), func(v verdict) bool { return v.reserve >= a.Pour.Goals })
	case PastLimit:
		a.ActBefore = a.PastSince
	case AllButEmpty:
		a.ActBefore = n.played.Worlds[0].Low
	case Fits, OnReserve:
		if a.Running {
			a.ActBefore = a.Now + min(n.spare(a.Rule), n.runsOut()-n.script.Task.Pots.Mixing)
			if next := a.Next; next != nil && !next.now && next.Circuit > 0 && next.Layer == n.goals[0].Layer && len(next.Pour.Fresh) > 0 {
				a.ActBefore = next.Latest // that is in good time before it runs out
			}
			if a.Next != nil && len(a.Next.Pour.Cups) > 0 { // they wait for it
				a.ActBefore = min(a.ActBefore, a.Now+n.keeps(a.Next.Pour.Cups))
			}
			break
		}
		fit, count := n.fit(fits), max(n.target, n.inHandEnds())
		a.ActBefore, err = n.latest(n.waits, min(count, n.lasts(n.mass())), func(v verdict) bool { return n.fit(v) >= fit })
	case TopUpFits:
		if a.Running {
			n.beforeItRunsOut()
			break
		}
		pour := func(delay quantity.Time) beginning { return n.topUp(a.Pour, delay) }
		a.ActBefore, err = n.latest(pour, a.Pour.Goals, func(v verdict) bool { return v.reserve >= a.Pour.Goals })
	case StopFirst:
		a.ActBefore = a.Now + n.spare(Fits)
	case ByPlan, NewPlan:
		switch {
		case a.Advice == Stop:
			a.ActBefore = a.Now + n.spare(Fits)
		case a.Advice == Change:
			if a.Filled { // to empty the bath while it pours
				a.ActBefore = n.ends()
			}
		case len(a.Pour.Cups) > 0:
			a.ActBefore = a.Now + min(n.spare(Fits), n.keeps(a.Pour.Cups), n.untilDry(a.Pour))
		default:
			a.ActBefore = min(a.Next.Latest, a.Now+n.untilDry(a.Pour))
		}
	}
	if math.IsInf(float64(a.ActBefore), 1) {
		a.ActBefore = unset
	}
	return err
}

// keeps is how long pots in their cups can still be poured.
func (n *now) keeps(pots []replay.Pot) quantity.Time {
	least := horizon
	for i := range pots {
		least = min(least, n.leftOf(&pots[i])-n.script.Task.Bath.Pour)
	}
	return max(0, least)
}

// ends is when the bath is surely good no more if the tow stands, or was.
func (n *now) ends() quantity.Time {
	if a := &n.answer; !math.IsNaN(float64(a.PastSince)) {
		return a.PastSince
	}
	return n.answer.Now + n.answer.StoppedSure
}

// pastSince is when the bath passed a limit: when so many worlds had that it counts as past, or the
// reading that says so; NaN: it has not. Once it has passed, that moment stays.
func (n *now) pastSince(by *replay.Reading) quantity.Time {
	type end struct {
		at, weight float64
		by         vessel.Limit
	}
	var ends []end
	total, over := 0.0, 0.0
	for i, w := range n.played.Worlds {
		weight := n.played.Cloud.Members[i].Weight
		if total += weight; w.Over != vessel.NoLimit {
			ends = append(ends, end{float64(w.OverAt), weight, w.Over})
		}
	}
	slices.SortFunc(ends, func(a, b end) int { return cmp.Compare(a.at, b.at) })
	passed := unset
	for _, e := range ends {
		if over += e.weight; over >= (1-batches.EnoughMembers)*total {
			passed = quantity.Time(e.at)
			n.answer.EndsBy = e.by
			break
		}
	}
	if at := n.script.PastFrom(); by != nil && !(passed <= at) {
		passed, n.answer.EndsBy = at, by.PastLimit()
	}
	return passed
}

// spare is how much of what is surely left is beyond the reserve, or may be spent where the
// layer is finished on it; negative: the reserve is being used.
func (n *now) spare(rule Rule) quantity.Time {
	if rule == OnReserve {
		return n.answer.LeftSure
	}
	return n.answer.LeftSure - n.answer.Reserve
}

// untilDry is how long mixing can wait where the tow runs meanwhile; +Inf: it stands, or the resin
// lasts.
func (n *now) untilDry(r Remedy) quantity.Time {
	if !n.answer.Running {
		return quantity.Time(math.Inf(1))
	}
	return n.runsOut() - n.mixing(r)
}

// beforeItRunsOut is when a pot must be begun while the tow runs: in time to be poured
// before the bath is down to its lowest, and before the reserve is broken.
func (n *now) beforeItRunsOut() {
	a := &n.answer
	a.ActBefore = a.Now + min(n.runsOut(), n.spare(Fits)) - n.mixing(a.Pour)
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

// closeEnough is how well the latest moment of a world is known: a crew reads minutes.
const closeEnough quantity.Time = 15

// latest finds how long one can wait and it still holds in enough of the worlds; it holds
// without waiting. Each trial world has a latest moment of its own, and the answer is the
// quantile over all that they stand for: the tenth worst of a hundred alone would jump by a
// minute to the ninth.
func (n *now) latest(begin func(delay quantity.Time) beginning, count int, holds func(verdict) bool) (quantity.Time, error) {
	at, err := n.latestOf(begin, count, horizon, holds)
	return min(at, n.answer.Now+n.answer.StoppedSure), err
}

// latestOf is the same within a span of time, whatever the bath of now has left.
func (n *now) latestOf(begin func(delay quantity.Time) beginning, count int, span quantity.Time, holds func(verdict) bool) (quantity.Time, error) {
	delays := make([]float64, len(n.few))
	err := ensemble.Each(len(n.few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		w := n.few[i].World
		low, high := quantity.Time(0), span
		if left, known := n.stopped[w]; known {
			high = min(high, left)
		}
		for high-low > closeEnough {
			middle := (low + high) / 2
			v, err := n.trial(w, begin(middle), count)
			if err != nil {
				return err
			}
			if holds(v) {
				low = middle
			} else {
				high = middle
			}
		}
		delays[i] = float64(low)
		return nil
	})
	if err != nil {
		return unset, err
	}
	delay := quantity.Time(n.played.QuantileOf(n.few, 1-batches.EnoughMembers, delays))
	return n.answer.Now + max(0, delay), nil
}
