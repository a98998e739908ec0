package fit

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/fit/leastsquares"
)

// A model is the statements over the space of the parameters.
type model struct {
	*space
	tests []*test
	start []int // index of a test's first residual
	count int   // residuals, the prior's last
}

func newModel(prior *resins.Record, list []Statement) (*model, []string, error) {
	m := &model{space: newSpace(prior, list)}
	var warnings []string
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

// step of the differences in σ of the prior: some 1 % of a rate, over which the
// error of a working simulation, 1e-4 to 1e-5, leaves a derivative good to 1 %.
const step = 0.05

// fineStep follows where there are logs, whose many readings narrow the rate to a
// per cent.
const fineStep = 0.01

// logs tells whether a log is among the tests.
func (m *model) logs() bool { return len(m.all) > named }

// enough is a reduction of half the sum of squares that no figure shows.
const enough = settled * settled / 2

// roughlyEnough is when the wide step has brought a fit with logs as far as it can.
const roughlyEnough = 5e-3

// nearDamping leaves the steps of a fit that starts at its end as they are.
const nearDamping = 1e-4

// solve minimises from x; near tells that x is the solution of nearly the same
// statements.
func (m *model) solve(chosen choice, x []float64, near bool) (*leastsquares.Result, error) {
	scale := make([]float64, len(x))
	for i := range scale {
		scale[i] = 1
	}
	p := leastsquares.Problem{
		Residuals: m.residuals(chosen), Count: m.count, Start: x, Scale: scale, Step: step, Parallel: true,
	}
	o := leastsquares.Options{Iterations: 60, Enough: enough, Reduction: 1e-7, Move: 1e-4, Plain: true}
	if !near && m.logs() {
		o.Enough, o.Secant = roughlyEnough, 3
		rough, err := leastsquares.Minimise(p, o)
		if err != nil {
			return nil, err
		}
		p.Start, o.Enough, o.Secant = rough.X, enough, 0
	}
	if near {
		o.Secant = 3
	}
	if near || m.logs() {
		p.Step, o.Damping, o.Even = fineStep, nearDamping, true
	}
	return leastsquares.Minimise(p, o)
}

// scout finds where to start: a pot life that never ends and a log that runs away
// hours late have no slope to follow, so that the rate alone is tried over four
// decades first.
func (m *model) scout() ([]float64, error) {
	x := make([]float64, len(m.active))
	k := m.index[rate]
	if k < 0 {
		return x, nil
	}
	const reach, stride = 4.6, 0.2 // of ln k
	best, least := 0.0, math.Inf(1)
	r := make([]float64, m.count)
	residuals := m.residuals(m.every())
	for ln := -reach; ln <= reach; ln += stride {
		x[k] = ln / m.all[rate].sigma
		if err := residuals(x, r); err != nil {
			continue
		}
		sum := 0.0
		for _, v := range r {
			sum += v * v
		}
		if sum < least {
			best, least = x[k], sum
		}
	}
	x[k] = best
	return x, nil
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
