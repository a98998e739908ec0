package learning

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

var day = time.Date(2026, 11, 2, 17, 0, 0, 0, time.UTC)

func sessions(u float64, values ...float64) []Said {
	list := make([]Said, len(values))
	for i, v := range values {
		list[i] = Said{At: day.AddDate(0, 0, 7*i), Y: math.Log(v), U: u}
	}
	return list
}

// TestOneOddSession: among six alike, one that is off by a factor of 2 moves the lesson by
// less than a plain mean would by a third, and by less than 4 %; the spread tells of it.
func TestOneOddSession(t *testing.T) {
	alike := pickUp.combine(sessions(0.02, 1.10, 1.09, 1.11, 1.10, 1.10, 1.10))
	odd := pickUp.combine(sessions(0.02, 1.10, 1.09, 1.11, 2.20, 1.10, 1.10))
	moved := math.Log(odd.Value / alike.Value)
	if plain := math.Log(2) / 6; !(moved > 0 && moved < plain/3 && moved < 0.04) {
		t.Errorf("an odd session moves the lesson from %.3f to %.3f, by %.1f %%", alike.Value, odd.Value, 100*moved)
	}
	if !(odd.Spread > alike.Spread) {
		t.Errorf("an odd session leaves the spread at %.3f, from %.3f", odd.Spread, alike.Spread)
	}
	// The same however odd: the pull of (5) does not grow.
	odder := pickUp.combine(sessions(0.02, 1.10, 1.09, 1.11, 4.0, 1.10, 1.10))
	if further := math.Log(odder.Value / alike.Value); !(further < 1.6*moved) {
		t.Errorf("a session off by 4 moves the lesson by %.1f %%, one off by 2 by %.1f %%", 100*further, 100*moved)
	}
}

// TestNewSessionsCountMore: after a change of habit the lesson follows the new sessions; the
// old ones, two half-lives back, count a quarter.
func TestNewSessionsCountMore(t *testing.T) {
	old, recent := sessions(0.02, 1.0, 1.0, 1.0), sessions(0.02, 1.12, 1.12, 1.12)
	for i := range old {
		old[i].At = old[i].At.AddDate(0, 0, -240)
	}
	got := minutes.combine(append(old, recent...)).Value
	if middle := math.Sqrt(1.12); !(got > 1+0.7*(1.12-1) && got < 1.12 && got > middle) {
		t.Errorf("after three sessions at 1.00 long ago and three at 1.12 now the lesson is %.3f", got)
	}
}

// TestNoneAndOne: no session teaches nothing; one teaches what it says, drawn a little to
// what was known before, with a spread that is wider than after many.
func TestNoneAndOne(t *testing.T) {
	if l := pickUp.combine(nil); l.Known() || l.Sessions != 0 {
		t.Errorf("no session teaches %+v", l)
	}
	one, many := pickUp.combine(sessions(0.02, 1.2)), pickUp.combine(sessions(0.02, 1.2, 1.2, 1.2, 1.2, 1.2, 1.2))
	if !(one.Value > 1.1 && one.Value < 1.2 && many.Value > one.Value && many.Value < 1.2) {
		t.Errorf("one session at 1.2 teaches %.3f, six teach %.3f", one.Value, many.Value)
	}
	if !(many.Spread < one.Spread) {
		t.Errorf("the spread is %.3f after one session and %.3f after six", one.Spread, many.Spread)
	}
}

// TestSpreadIsThatOfTheNextSession: with sessions that really scatter as is known
// beforehand, the next one lies within the spread told 9 times in 10. 2000 draws have a
// binomial error of 0.7 in 100; three of it.
func TestSpreadIsThatOfTheNextSession(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	const draws = 2000
	within := 0
	for range draws {
		truth := pickUp.sigma0 * r.NormFloat64()
		said := make([]Said, 6)
		for i := range said {
			said[i] = Said{At: day, Y: truth + pickUp.tau0*r.NormFloat64() + 0.02*r.NormFloat64(), U: 0.02}
		}
		l := pickUp.combine(said)
		next := truth + pickUp.tau0*r.NormFloat64()
		if math.Abs(next-math.Log(l.Value)) <= math.Log(l.Spread) {
			within++
		}
	}
	share := 100 * float64(within) / draws
	t.Logf("the next session lies within the spread in %.1f of 100", share)
	if !(share >= 90-2.1 && share <= 90+2.1) {
		t.Errorf("the next session lies within the spread in %.1f of 100, not in 90", share)
	}
}
