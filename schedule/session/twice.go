package session

import (
	"math"
	"time"

	"potlife/kinetics/warning"
)

// twiceWithin is how soon the same pot told again is taken for one told by two people (our
// choice).
const twiceWithin = 15 * time.Minute

// Twice finds whether an event, which is among all, may have been logged before in other
// words: a [MixedTwice] or a [PouredTwice]. A large pot that follows another after its mixing is none such:
// what is too much for one pot goes into several alike.
func (s Setting) Twice(e Event, all []Event) []warning.Warning {
	switch e.Kind {
	case Mixed:
		for _, other := range Active(all) {
			apart := e.At.Sub(other.At).Abs()
			if other.Kind != Mixed || other.Seq >= e.Seq || apart > twiceWithin || !s.alike(e, other) {
				continue
			}
			if apart >= s.mixing() && s.large(e) {
				continue
			}
			return []warning.Warning{MixedTwice{Event: other.Seq}}
		}
	case Poured:
		pots := map[int]Event{}
		for _, other := range all {
			pots[other.Seq] = other
		}
		for _, other := range Active(all) {
			if other.Kind != Poured || other.Seq >= e.Seq || !other.At.Truncate(time.Minute).Equal(e.At.Truncate(time.Minute)) {
				continue
			}
			if s.large(pots[e.Pot]) && s.large(pots[other.Pot]) {
				continue
			}
			return []warning.Warning{PouredTwice{Event: other.Seq, Pot: other.PotNumber}}
		}
	}
	return nil
}

func grams(e Event) float64 { return e.MassG + e.ResinG + e.HardenerG }

// alike tells whether two pots weigh the same, as far as the scale shows.
func (s Setting) alike(a, b Event) bool {
	const rounding = 1e-6
	return math.Abs(grams(a)-grams(b)) <= s.Scale.In("g")+rounding
}

// large tells whether a pot may be one of several for the same pour: cut evenly, each is more
// than half of the largest.
func (s Setting) large(e Event) bool { return grams(e) > 0.5*s.Largest.In("g") }

func (s Setting) mixing() time.Duration {
	return time.Duration(float64(s.Mixing) * float64(time.Second))
}
