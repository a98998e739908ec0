package fit

import (
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/mat"

	"potlife/kinetics/ensemble"
)

// A Judged statement: what it said, what the nearest system, the new record and
// the new record without it say instead.
type Judged struct {
	Statement Statement
	// Figures: a time in s, a viscosity in Pa·s, a conversion, a temperature in K
	// or an energy in J/kg; see [Judged.Measures]. A time may be +Inf.
	Said, Before, Says, Without float64
	Measures                    string // "time", "viscosity", "conversion", "temperature" or "heat"
	// Residual is says against said, in σ of the statement; for a log, the root
	// mean square over its readings. Positive is slower, thicker, warmer or more.
	Residual float64
	// Surprise is what the others predict against said, in σ of both.
	Surprise float64
}

// judge predicts each statement, also from the others alone, and looks for pairs
// that contradict each other.
func (f *Result) judge() error {
	m := f.model
	says, err := m.figures(f.solution.X)
	if err != nil {
		return err
	}
	before, err := m.figures(make([]float64, len(m.active)))
	if err != nil {
		return err
	}
	var judged atomic.Int64
	f.Statements = make([]Judged, len(m.tests))
	err = ensemble.Each(len(m.tests), func() struct{} { return struct{}{} }, func(_ struct{}, i int) (err error) {
		t, j := m.tests[i], &f.Statements[i]
		*j = Judged{Statement: *t.Statement, Said: t.said(), Before: before[i], Says: says[i], Measures: t.measures()}
		j.Residual = f.residual(i)
		j.Without, j.Surprise, err = f.leaveOut(i)
		f.seen(Progress{Judged: int(judged.Add(1)), Statements: len(m.tests)})
		return err
	})
	if err != nil {
		return err
	}
	f.contradictions()
	f.misses()
	return nil
}

func (t *test) measures() string {
	switch t.Kind {
	case Viscosity:
		return "viscosity"
	case Conversion:
		return "conversion"
	case Glass:
		return "temperature"
	case Heat:
		return "heat"
	case CupLog:
		if !t.log.rises() {
			return "temperature"
		}
	}
	return "time"
}

func (f *Result) residual(i int) float64 {
	m := f.model
	r := f.solution.Residuals[m.start[i] : m.start[i]+m.tests[i].count]
	if len(r) == 1 {
		return r[0]
	}
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return math.Sqrt(sum / float64(len(r)))
}

// bent is by how much the covariance of a log is too small for being linear: on
// twins the errors of rates fitted to logs have 1.15 to 1.4 times the standard
// deviations stated.
const bent = 2.0

// asNormal brings a χ² of k parts onto the scale of one standard normal by
// Wilson and Hilferty's cube root.
func asNormal(chi float64, k int) float64 {
	switch k {
	case 0:
		return 0
	case 1:
		return math.Sqrt(chi)
	}
	spread := 2 / (9 * float64(k))
	return math.Max(0, (math.Cbrt(chi/float64(k))-(1-spread))/math.Sqrt(spread))
}

// rows are the derivatives of a test's residuals at the solution.
func (f *Result) rows(i int) *mat.Dense {
	m := f.model
	return mat.DenseCopyOf(f.solution.Jacobian.Slice(m.start[i], m.start[i]+m.tests[i].count, 0, len(m.active)))
}

// distance is how far residuals d of unit variance are off when the parameters
// that predict them have the covariance C: for one, d over its standard
// deviation; for several, χ² = dᵀ(1 + J·C·Jᵀ)⁻¹d brought onto the scale of one.
func distance(d []float64, jacobian *mat.Dense, c mat.Symmetric) float64 {
	k := len(d)
	var variance mat.Dense
	variance.Product(jacobian, c, jacobian.T())
	s := mat.NewSymDense(k, nil)
	for a := range k {
		for b := a; b < k; b++ {
			v := variance.At(a, b)
			if a == b {
				v++
			}
			s.SetSym(a, b, v)
		}
	}
	if k == 1 {
		return d[0] / math.Sqrt(s.At(0, 0))
	}
	var chol mat.Cholesky
	var solved mat.VecDense
	if !chol.Factorize(s) || chol.SolveVecTo(&solved, mat.NewVecDense(k, d)) != nil {
		return math.NaN()
	}
	return asNormal(mat.Dot(mat.NewVecDense(k, d), &solved)/bent, k)
}
