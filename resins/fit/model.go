package fit

import (
	"slices"

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
