package batches

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// slackNeed is what rounding leaves of a mass, in kg; the referee lets twice as
// much pass.
const slackNeed = slackMass / 2

// justEnough is what is poured so that the bath is down to its lowest mass at
// the stop to, from standing cups first; the breach tells that the bath cannot
// hold it, or where nothing is poured that it does not last so long.
func (t *Task) justEnough(from *position, into Into, to int) ([]MixedPot, *Breach) {
	heel := 0.0
	if into == TopUp || into == None {
		heel = float64(from.heel.Mass)
	}
	highest := float64(t.Bath.Highest) * (1 + 1e-9)
	need := float64(t.Bath.Lowest) + t.carried(from.stop, to) - heel
	if into == None {
		if need > slackNeed {
			return nil, &Breach{Unit: to - 1, At: quantity.Time(from.clock), Why: ByLowest}
		}
		return nil, nil
	}
	var pots []MixedPot
	poured := 0.0
	if from.standing {
		pots, poured = t.fromCups(need, highest-heel)
	}
	if len(pots) == 0 || need-poured > slackNeed {
		for _, p := range t.split((need - poured) / (1 - t.Pots.LeftInCup)) {
			pots = append(pots, MixedPot{Pot: p})
			poured += float64(p.Mass()) * (1 - t.Pots.LeftInCup)
		}
	}
	if heel+poured > highest {
		return nil, &Breach{Unit: to - 1, At: quantity.Time(from.clock), Why: ByHighest}
	}
	return pots, nil
}

// split divides a mass to be mixed into as few equal pots as their bounds
// allow, each rounded up to the scale; at least one, of the smallest size.
func (t *Task) split(mass float64) []resins.Pot {
	largest := float64(t.Pots.Largest) * (1 + 1e-9)
	for n := max(1, int(math.Ceil(mass/largest))); ; n++ {
		pot := t.Mix.Weigh(quantity.Mass(math.Max(mass/float64(n), float64(t.Pots.Smallest))), t.Pots.Step)
		// A pot of the smallest size fits by the task's own rules; a larger
		// one that rounding lifted above the largest is split further.
		if float64(pot.Mass()) <= largest || mass/float64(n) <= float64(t.Pots.Smallest) {
			pots := make([]resins.Pot, n)
			for i := range pots {
				pots[i] = pot
			}
			return pots
		}
	}
}

// timing sets the clock of a stop, see the package comment, and the minutes at
// which pots still to be mixed are begun.
func (t *Task) timing(from *position, into Into, pots []MixedPot) Pour {
	pause := t.pauseAfter(from.stop)
	if into == None {
		now := quantity.Time(from.clock)
		return Pour{Stop: from.stop, Into: into, At: now, Winds: now + quantity.Time(pause)}
	}
	toMix := float64(toBeMixed(pots))
	mixing, pouring := toMix*float64(t.Pots.Mixing), float64(len(pots))*float64(t.Bath.Pour)
	work := pouring
	if into == Change {
		work = math.Max(work, float64(t.Bath.Change))
	}
	stop := math.Max(pause, work)
	if !t.Pots.Helper {
		stop = pause + mixing + work
	}
	// Pots are mixed one after another and none before the last was poured.
	at := math.Max(from.clock+stop-pouring, from.mixedBy+mixing)
	for i := range pots {
		if pots[i].Seq == 0 {
			pots[i].MixAt = quantity.Time(at - toMix*float64(t.Pots.Mixing))
			toMix--
		}
	}
	return Pour{Stop: from.stop, Into: into, Pots: pots, At: quantity.Time(at), Winds: quantity.Time(at + pouring)}
}
