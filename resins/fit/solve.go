package fit

import "potlife/resins/fit/leastsquares"

// step of the differences in σ of the prior: some 1 % of a rate, over which the
// error of a working simulation, 1e-4 to 1e-5, leaves a derivative good to 1 %.
const step = 0.05

// fineStep follows where there are logs, whose many readings narrow the rate to a
// per cent.
const fineStep = 0.01

// enough is a reduction of half the sum of squares that moves no parameter by more
// than the settled share of its own σ: half of its square.
const enough = settled * settled / 2

// roughly is the same for the wide step, from which the fine one goes on: a tenth
// of a σ.
const roughly = 5e-3

// followed steps of a search go without differences anew: a still cup in each of
// nine directions costs more than a step that is somewhat less well aimed.
const followed = 3

// nearDamping leaves the steps of a search that starts next to its end as they are.
const nearDamping = 1e-4

// logs tells whether a log is among the tests.
func (m *model) logs() bool { return len(m.all) > named }

// solve finds the most probable parameters from x on. The Jacobian of the result is
// differenced at its end.
func (m *model) solve(x []float64) (*leastsquares.Result, error) {
	p, o := m.search(m.every(), x)
	if !m.logs() {
		return leastsquares.Minimise(p, o)
	}
	rough := o
	rough.Enough, rough.Secant = roughly, followed
	r, err := leastsquares.Minimise(p, rough)
	if err != nil {
		return nil, err
	}
	return leastsquares.Minimise(fine(p, o, r.X))
}

// solveNear does so for fewer tests, from the solution x of all, whose differences are
// remembered.
func (m *model) solveNear(chosen choice, x []float64) (*leastsquares.Result, error) {
	p, o := m.search(chosen, x)
	if !m.logs() {
		return leastsquares.Minimise(p, o)
	}
	o.Secant = followed
	return leastsquares.Minimise(fine(p, o, x))
}

func (m *model) search(chosen choice, x []float64) (leastsquares.Problem, leastsquares.Options) {
	scale := make([]float64, len(x))
	for i := range scale {
		scale[i] = 1
	}
	p := leastsquares.Problem{
		Residuals: m.residuals(chosen), Count: m.count, Start: x, Scale: scale, Step: step, Parallel: true,
	}
	return p, leastsquares.Options{Seen: m.seen, Iterations: 60, Enough: enough, Reduction: 1e-7, Move: 1e-4, Plain: true}
}

// fine is a search with small differences from a place close to its end.
func fine(p leastsquares.Problem, o leastsquares.Options, x []float64) (leastsquares.Problem, leastsquares.Options) {
	p.Start, p.Step = x, fineStep
	o.Damping, o.Even = nearDamping, true
	return p, o
}
