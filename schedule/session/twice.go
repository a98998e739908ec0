package session

import (
	"fmt"
	"math"
	"time"
)

// twiceWithin is how soon the same pot told again is taken for one told by two people (our
// choice).
const twiceWithin = 15 * time.Minute

// Twice says whether an event, which is among all, may have been logged before in other
// words; empty: it was not. A large pot that follows another after its mixing is none such:
// what is too much for one pot goes into several alike.
func (s Setting) Twice(e Event, all []Event) string {
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
			return fmt.Sprintf("event %d says the same: logged twice? undo takes it back", other.Seq)
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
			return fmt.Sprintf("event %d says that the pot of event %d was poured then too: logged twice? undo takes it back", other.Seq, other.Pot)
		}
	}
	return ""
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
