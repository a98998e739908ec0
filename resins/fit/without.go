package fit

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// The others of a statement are a fit of all statements but that one.
type others struct {
	x          []float64
	covariance *mat.SymDense
}

// fewTests are fitted anew without each of them: one of a few moves the rest far, and fits of
// few cost little.
const fewTests = 16

// leaveOut fits all but statement i and predicts it.
func (f *Result) leaveOut(i int) (figure, surprise float64, err error) {
	m := f.model
	rest, bent := others{}, true
	if len(m.tests) > fewTests {
		rest, bent = f.stepWithout(i)
	}
	if bent {
		refit, err := m.solveNear(m.every().without(i), f.solution.X)
		if err != nil {
			return 0, 0, err
		}
		rest = others{refit.X, refit.Covariance}
	}
	figure, r, err := m.ask(i, rest.x)
	if err != nil {
		return 0, 0, err
	}
	if len(r) > 1 {
		return figure, f.shift(rest), nil
	}
	return figure, distance(r, f.rows(i), rest.covariance), nil
}

// ask predicts one test.
func (m *model) ask(i int, x []float64) (figure float64, residuals []float64, err error) {
	resin, err := m.resin(x)
	if err != nil {
		return 0, nil, err
	}
	u, from := m.runs[m.tests[i].run], 0
	p, err := u.predict(&resin, m.space, x)
	if err != nil {
		return 0, nil, err
	}
	for k, t := range u.tests {
		if t.index == i {
			return p.figures[k], p.residuals[from : from+t.count], nil
		}
		from += t.count
	}
	return 0, nil, errors.New("a run does not hold its test")
}

// stepWithout takes statement i out of the fit by one step from the solution of all, with
// N = 1 + JᵀJ and g = Jᵀr + x̂ of all,
//
//	C = (N − N_i)⁻¹,  x = x̂ − C·(g − g_i)                               (4)
//
// which is exact where residuals are linear, and costs no simulation. It is bent where that
// moves what is said of statement i by more than [straight].
func (f *Result) stepWithout(i int) (rest others, bent bool) {
	m, n := f.model, len(f.model.active)
	precision := mat.NewSymDense(n, nil)
	precision.CopySym(f.precision)
	right := mat.NewVecDense(n, nil)
	j := f.rows(i)
	for a := range n {
		for b := a; b < n; b++ {
			sum := 0.0
			for k := range m.tests[i].count {
				sum += j.At(k, a) * j.At(k, b)
			}
			precision.SetSym(a, b, precision.At(a, b)-sum)
		}
		right.SetVec(a, f.slope[a]-f.pulls[i][a])
	}
	var chol mat.Cholesky
	c := mat.NewSymDense(n, nil)
	if !chol.Factorize(precision) || chol.InverseTo(c) != nil {
		return others{}, true
	}
	var step mat.VecDense
	step.MulVec(c, right)
	step.ScaleVec(-1, &step)
	rest = others{make([]float64, n), c}
	floats.AddTo(rest.x, f.solution.X, step.RawVector().Data)
	return rest, f.bends(i, rest, &step)
}

// asked is of how many tests it is asked whether a step is straight.
const asked = 3

// A step stands that may be off a search by straight, in σ of a residual, which is a third of a
// per cent of a pot life; and of half the sum of squares by straightSquare for each statement:
// the more statements, the more of it is the same way.
const (
	straight       = 0.05
	straightSquare = 2e-5
)

// bends tells whether a step to the others of statement i may not stand. The tests that it
// moves most are asked; what they are off the linear model is taken for all others in
// proportion to the squares that move, as curvature is, and gives the next step.
func (f *Result) bends(i int, rest others, step *mat.VecDense) bool {
	m := f.model
	linear := func(row int) float64 { return dot(f.solution.Jacobian.RawRowView(row), step.RawVector().Data) }
	moved, all := make([]float64, len(m.tests)), 0.0
	for k, t := range m.tests {
		for row := m.start[k]; k != i && row < m.start[k]+t.count; row++ {
			moved[k] += linear(row) * linear(row)
		}
		all += moved[k]
	}
	left := mat.NewVecDense(len(rest.x), nil) // gradient that the linear model does not see
	heard := 0.0
	for range asked {
		k := floats.MaxIdx(moved)
		if moved[k] == 0 {
			break
		}
		_, r, err := m.ask(k, rest.x)
		if err != nil {
			return true
		}
		for at, is := range r {
			row := m.start[k] + at
			left.AddScaledVec(left, is-f.solution.Residuals[row]-linear(row), f.solution.Jacobian.RowView(row))
		}
		heard += moved[k]
		moved[k] = 0
	}
	if heard == 0 {
		return false
	}
	left.ScaleVec(all/heard, left)
	var next mat.VecDense
	next.MulVec(rest.covariance, left)
	if !(mat.Dot(left, &next)/2 <= straightSquare*float64(len(m.tests))) {
		return true
	}
	return m.tests[i].count == 1 && !(math.Abs(mat.Dot(f.solution.Jacobian.RowView(m.start[i]), &next)) <= straight)
}

// settled is how exactly, in σ of the prior, a fit finds its parameters.
const settled = 0.03

// shift is how far the parameters moved when a log of many readings was heard as
// well, against how far they may: δᵀ(C_rest − C)⁻¹δ over the directions that the
// log tells. For one reading it is [distance] squared; for many it does not take
// the bend of a curve for a contradiction.
func (f *Result) shift(rest others) float64 {
	n := len(rest.x)
	gained := mat.NewSymDense(n, nil)
	gained.ScaleSym(-1, f.solution.Covariance)
	gained.AddSym(gained, rest.covariance)
	var eigen mat.EigenSym
	if !eigen.Factorize(gained, true) {
		return math.NaN()
	}
	var directions mat.Dense
	eigen.VectorsTo(&directions)
	chi, told := 0.0, 0
	for k, gain := range eigen.Values(nil) {
		if gain < settled*settled {
			continue
		}
		along := 0.0
		for i := range n {
			along += directions.At(i, k) * (f.solution.X[i] - rest.x[i])
		}
		chi += along * along / (gain + settled*settled)
		told++
	}
	return asNormal(chi/bent, told)
}
