package fit

import (
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/floats"

	"potlife/kinetics/ensemble"
)

// scout finds where to start: a pot life that never ends and a log that runs away
// hours late have no slope to follow, so that the rate alone is tried over four
// decades first, and halfway to the neighbours of the best.
func (m *model) scout() ([]float64, error) {
	x := make([]float64, len(m.active))
	k := m.index[rate]
	if k < 0 {
		return x, nil
	}
	const reach, stride = 4.8, 0.4 // of ln k
	var tries []float64
	for i := range int(math.Round(2*reach/stride)) + 1 {
		tries = append(tries, stride*float64(i)-reach)
	}
	best, least, err := m.leastAlong(k, tries)
	if err != nil || math.IsInf(least, 1) {
		return x, err
	}
	between, closer, err := m.leastAlong(k, []float64{best - stride/2, best + stride/2})
	if closer < least {
		best = between
	}
	x[k] = best / m.all[rate].sigma
	return x, err
}

// leastAlong tries values of an active parameter, all others at the prior, and
// returns the one with the least sum of squares, +Inf where none can be computed. A
// value is given up as soon as some of its tests alone are worse than all of another's:
// squares only add up, so that the answer is that of trying all in full.
func (m *model) leastAlong(active int, values []float64) (best, least float64, err error) {
	sums := make([]float64, len(values))
	bound := newLeast()
	middle := len(values) / 2
	err = ensemble.Each(len(values), func() []float64 { return make([]float64, len(m.active)) }, func(x []float64, i int) error {
		i = outwards(middle, i, len(values))
		x[active] = values[i] / m.all[m.active[active]].sigma
		sums[i] = math.Inf(1)
		resin, err := m.resin(x)
		if err != nil {
			return nil
		}
		sum := dot(x, x)
		for _, u := range m.runs {
			p, err := u.predict(&resin, m.space, x)
			if err != nil {
				return nil
			}
			if sum += dot(p.residuals, p.residuals); !(sum <= bound.get()) {
				return nil
			}
		}
		sums[i] = sum
		bound.lower(sum)
		return nil
	})
	i := floats.MinIdx(sums)
	return values[i], sums[i], err
}

// A leastSoFar is the least of what several goroutines have found, all above zero.
type leastSoFar struct{ bits atomic.Uint64 }

func newLeast() *leastSoFar {
	l := &leastSoFar{}
	l.bits.Store(math.Float64bits(math.Inf(1)))
	return l
}

func (l *leastSoFar) get() float64 { return math.Float64frombits(l.bits.Load()) }

func (l *leastSoFar) lower(to float64) {
	for old := l.bits.Load(); to < math.Float64frombits(old); old = l.bits.Load() {
		if l.bits.CompareAndSwap(old, math.Float64bits(to)) {
			return
		}
	}
}

// outwards is the i-th index below n as seen from the middle one.
func outwards(middle, i, n int) int {
	at := middle + (i+1)/2
	if i%2 == 1 {
		at = middle - (i+1)/2
	}
	return at
}
