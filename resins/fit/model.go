package fit

import (
	"math"
	"slices"
	"sync/atomic"

	"gonum.org/v1/gonum/floats"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// A model is the statements over the space of the parameters.
type model struct {
	*space
	tests []*test
	start []int // index of a test's first residual
	count int   // residuals, the prior's last
	runs  []*run
	seen  func(step int) // nil: nobody asks
}

func newModel(prior *resins.Record, list []Statement) (*model, []warning.Warning, error) {
	m := &model{space: newSpace(prior, list)}
	var warnings []warning.Warning
	first := int(named)
	for i := range list {
		t, told, err := newTest(&list[i], prior.Kinetics.Density)
		if err != nil {
			return nil, nil, err
		}
		if t.Kind == CupLog {
			t.first = first
			first++
		}
		t.index = i
		warnings = append(warnings, told...)
		m.tests = append(m.tests, t)
		m.start = append(m.start, m.count)
		m.count += t.count
	}
	m.count += len(m.active)
	m.runs = newRuns(m.tests, m.space)
	return m, warnings, nil
}

// A choice of tests: those that count. A test left out is not simulated, and its
// residuals are zero.
type choice []bool

func (m *model) every() choice {
	c := make(choice, len(m.tests))
	for i := range c {
		c[i] = true
	}
	return c
}

func (c choice) without(i int) choice {
	d := append(choice(nil), c...)
	d[i] = false
	return d
}

// asks tells whether a run answers any of the tests chosen.
func (c choice) asks(u *run) bool {
	return slices.ContainsFunc(u.tests, func(t *test) bool { return c[t.index] })
}

// residuals of the chosen tests and of the prior.
func (m *model) residuals(chosen choice) func(x, r []float64) error {
	return func(x, r []float64) error {
		resin, err := m.resin(x)
		if err != nil {
			return err
		}
		copy(r[m.count-len(m.active):], x)
		return ensemble.Each(len(m.runs), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
			u := m.runs[i]
			if !chosen.asks(u) {
				m.scatter(u, prediction{residuals: make([]float64, u.count)}, chosen, r)
				return nil
			}
			p, err := u.predict(&resin, m.space, x)
			if err == nil {
				m.scatter(u, p, chosen, r)
			}
			return err
		})
	}
}

// scatter writes the residuals of a run where they stand among all; those of tests that
// are not chosen are zero.
func (m *model) scatter(u *run, p prediction, chosen choice, r []float64) {
	from := 0
	for _, t := range u.tests {
		into := r[m.start[t.index] : m.start[t.index]+t.count]
		copy(into, p.residuals[from:])
		if !chosen[t.index] {
			clear(into)
		}
		from += t.count
	}
}

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

// figures predicts every test at x.
func (m *model) figures(x []float64) ([]float64, error) {
	resin, err := m.resin(x)
	if err != nil {
		return nil, err
	}
	says := make([]float64, len(m.tests))
	err = ensemble.Each(len(m.runs), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		p, err := m.runs[i].predict(&resin, m.space, x)
		for k, t := range m.runs[i].tests {
			says[t.index] = p.figures[k]
		}
		return err
	})
	return says, err
}

// density of the mix as a liquid, no volume lost.
func withMix(prior *resins.Record, mix *resins.Mix) *resins.Record {
	copied := *prior
	if mix != nil {
		copied.Mix = *mix
		copied.Kinetics.Density = quantity.Density(mix.Density())
	}
	return &copied
}
