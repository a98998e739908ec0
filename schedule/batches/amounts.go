package batches

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// justEnough is what is poured so that the bath is down to its lowest mass at
// the stop to; the breach tells that the bath cannot hold it.
func (t *Task) justEnough(from *position, into Into, to int) ([]resins.Pot, *Breach) {
	heel := 0.0
	if into == TopUp {
		heel = float64(from.heel.Mass)
	}
	need := float64(t.Bath.Lowest) + t.carried(from.stop, to) - heel
	pots := t.split(need / (1 - t.Pots.LeftInCup))
	poured := 0.0
	for _, p := range pots {
		poured += float64(p.Mass()) * (1 - t.Pots.LeftInCup)
	}
	if heel+poured > float64(t.Bath.Highest)*(1+1e-9) {
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

// timing sets the clock of a stop, see the package comment.
func (t *Task) timing(from *position, into Into, pots []resins.Pot) Pour {
	n := float64(len(pots))
	mixing, pouring := n*float64(t.Pots.Mixing), n*float64(t.Bath.Pour)
	work := pouring
	if into == Change {
		work = math.Max(work, float64(t.Bath.Change))
	}
	stop := math.Max(t.pauseAfter(from.stop), work)
	if !t.Pots.Helper {
		stop = t.pauseAfter(from.stop) + mixing + work
	}
	if into == Fill {
		stop = mixing + pouring
	}
	// Pots are mixed one after another and none before the last was poured.
	at := math.Max(from.clock+stop-pouring, from.mixedBy+mixing)
	pour := Pour{Stop: from.stop, Into: into, At: quantity.Time(at), Winds: quantity.Time(at + pouring)}
	for i, pot := range pots {
		mixAt := at - (n-float64(i))*float64(t.Pots.Mixing)
		pour.Pots = append(pour.Pots, MixedPot{MixAt: quantity.Time(mixAt), Pot: pot})
	}
	return pour
}
