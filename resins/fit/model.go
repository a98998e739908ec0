package fit

import (
	"math"

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
		t.decisive = t.decides(m.space)
		warnings = append(warnings, told...)
		m.tests = append(m.tests, t)
		m.start = append(m.start, m.count)
		m.count += t.count
	}
	m.count += len(m.active)
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

// residuals of the chosen tests and of the prior.
func (m *model) residuals(chosen choice) func(x, r []float64) error {
	return func(x, r []float64) error {
		resin, err := m.resin(x)
		if err != nil {
			return err
		}
		for i, t := range m.tests {
			into := r[m.start[i] : m.start[i]+t.count]
			if !chosen[i] {
				clear(into)
				continue
			}
			if _, err := t.predict(&resin, m.space, x, into); err != nil {
				return err
			}
		}
		copy(r[m.count-len(m.active):], x)
		return nil
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
// returns the one with the least sum of squares, +Inf where none can be computed.
func (m *model) leastAlong(active int, values []float64) (best, least float64, err error) {
	sums, residuals := make([]float64, len(values)), m.residuals(m.every())
	type buffers struct{ x, r []float64 }
	newBuffers := func() buffers { return buffers{make([]float64, len(m.active)), make([]float64, m.count)} }
	err = ensemble.Each(len(values), newBuffers, func(b buffers, i int) error {
		b.x[active] = values[i] / m.all[m.active[active]].sigma
		sums[i] = math.Inf(1)
		if residuals(b.x, b.r) == nil {
			sums[i] = dot(b.r, b.r)
		}
		return nil
	})
	i := floats.MinIdx(sums)
	return values[i], sums[i], err
}

// figures predicts every test at x.
func (m *model) figures(x []float64) ([]float64, error) {
	resin, err := m.resin(x)
	if err != nil {
		return nil, err
	}
	says := make([]float64, len(m.tests))
	r := make([]float64, m.count)
	for i, t := range m.tests {
		if says[i], err = t.predict(&resin, m.space, x, r[m.start[i]:m.start[i]+t.count]); err != nil {
			return nil, err
		}
	}
	return says, nil
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
