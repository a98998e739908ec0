package batches

import (
	"slices"

	"potlife/kinetics/quantity"
)

// sameMoment is how much earlier than it was foreseen a pour may come to lie and still keep its
// time: whoever reads the clock to a minute sees no difference, and a plan on paper stays true.
const sameMoment quantity.Time = 60

// Resume times pours anew from where the task begins, as the search times them: each as soon as
// the winding is there and its pots are mixed. Their stops, ways and pots stay as they are; the
// first is at stop 0. What would come less than a minute earlier than it has now waits for its
// time, and a fill before anything was mixed however early it would come.
func Resume(t *Task, pours []Pour) *Plan {
	plan := &Plan{}
	at := &position{clock: float64(t.Begin.At), mixedBy: float64(t.mixersFree())}
	for i, kept := range pours {
		at.stop = kept.Stop
		pour := t.timing(at, kept.Into, slices.Clone(kept.Pots))
		if wait := kept.At - pour.At; wait > 0 && kept.Into != None && (wait < sameMoment || kept.Into == Fill && len(t.Begin.Cups) == 0) {
			pour = pour.later(wait)
		}
		plan.Pours = append(plan.Pours, pour)
		last := len(t.Units)
		if i+1 < len(pours) {
			last = pours[i+1].Stop
		}
		clock := float64(pour.Winds)
		for u := pour.Stop; u < last; u++ {
			if u > pour.Stop {
				clock += t.pauseAfter(u)
			}
			plan.Start = append(plan.Start, quantity.Time(clock))
			clock += float64(t.Units[u].Time)
			plan.End = append(plan.End, quantity.Time(clock))
		}
		at.clock, at.mixedBy = clock, float64(pour.At)
	}
	return plan
}

// Confirm is a plan that enough of the ensemble keeps as [Solve] would return it: with its score
// and what the referee saw of it on a bath. What was weighed a little off may be broken there.
func Confirm(t *Task, plan *Plan, m Sure, chance Chance) (*Solution, error) {
	own := *plan
	own.Member = m
	tally, err := Referee(t, &own)
	if err != nil {
		return nil, err
	}
	own.Score = tally.Score
	if tally, err = Referee(t, &own); err != nil {
		return nil, err
	}
	return &Solution{Plan: &own, Chance: chance, Tally: tally, Coarse: own.Coarse}, nil
}

// later is the pour, with the pots still to be mixed for it, d later.
func (p Pour) later(d quantity.Time) Pour {
	p.At, p.Winds, p.Pots = p.At+d, p.Winds+d, slices.Clone(p.Pots)
	for k := range p.Pots {
		if p.Pots[k].Seq == 0 {
			p.Pots[k].MixAt += d
		}
	}
	return p
}

// shortage is how much less resin than reckoned may be in the bath without a plan being off for
// it, and excess how much more, as shares of the lowest and the highest mass: drips and the
// scales, as an advice has it.
const shortage, excess = 0.05, 0.05

// Amounts tells where what a plan pours onto a heel is too little or too much, all baths alike;
// nil: nowhere. It is not part of [Judge], for whom a plan of the search is just enough.
func (t *Task) Amounts(plan *Plan, heel quantity.Mass) *Breach {
	for i := range plan.Pours {
		pour := &plan.Pours[i]
		if pour.Into == Fill || pour.Into == Change {
			heel = 0
		}
		last := len(t.Units)
		if i+1 < len(plan.Pours) {
			last = plan.Pours[i+1].Stop
		}
		heel += pour.Mass() * quantity.Mass(1-t.Pots.LeftInCup)
		if len(pour.Pots) > 0 && heel > t.Bath.Highest*(1+excess) {
			return &Breach{Unit: pour.Stop, At: pour.At, Why: ByHighest}
		}
		if heel -= quantity.Mass(t.carried(pour.Stop, last)); heel < t.Bath.Lowest*(1-shortage) {
			return &Breach{Unit: last - 1, At: plan.End[last-1], Why: ByLowest}
		}
	}
	return nil
}
