package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"potlife/kinetics/ensemble"
	"potlife/resins/fit/leastsquares"
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

// A Contradiction is a pair of statements that cannot both be right.
type Contradiction struct {
	A, B     int // indices of the statements
	OfA, OfB Statement
	Sigmas   float64
}

// contradiction is how many σ two statements must be apart to be called that:
// one pair in 370 by chance.
const contradiction = 3.0

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
	f.Statements = make([]Judged, len(m.tests))
	err = ensemble.Each(len(m.tests), func() struct{} { return struct{}{} }, func(_ struct{}, i int) (err error) {
		t, j := m.tests[i], &f.Statements[i]
		*j = Judged{Statement: *t.Statement, Said: t.said(), Before: before[i], Says: says[i], Measures: t.measures()}
		j.Residual = f.residual(i)
		j.Without, j.Surprise, err = f.leaveOut(i)
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

// leaveOut fits all but statement i and predicts it.
func (f *Result) leaveOut(i int) (figure, surprise float64, err error) {
	m := f.model
	rest, err := m.solveNear(m.every().without(i), f.solution.X)
	if err != nil {
		return 0, 0, err
	}
	resin, err := m.resin(rest.X)
	if err != nil {
		return 0, 0, err
	}
	t := m.tests[i]
	r := make([]float64, t.count)
	if figure, err = t.predict(&resin, m.space, rest.X, r); err != nil {
		return 0, 0, err
	}
	if t.count > 1 {
		return figure, f.shift(rest), nil
	}
	return figure, distance(r, f.rows(i), rest.Covariance), nil
}

// settled is how exactly, in σ of the prior, a fit finds its parameters.
const settled = 0.03

// shift is how far the parameters moved when a log of many readings was heard as
// well, against how far they may: δᵀ(C_rest − C)⁻¹δ over the directions that the
// log tells. For one reading it is [distance] squared; for many it does not take
// the bend of a curve for a contradiction.
func (f *Result) shift(rest *leastsquares.Result) float64 {
	n := len(rest.X)
	gained := mat.NewSymDense(n, nil)
	gained.ScaleSym(-1, f.solution.Covariance)
	gained.AddSym(gained, rest.Covariance)
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
			along += directions.At(i, k) * (f.solution.X[i] - rest.X[i])
		}
		chi += along * along / (gain + settled*settled)
		told++
	}
	return asNormal(chi/bent, told)
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

// contradictions finds the pairs: they pull in opposite directions, and either
// the one is more than 3σ from what prior and the other alone predict, or it is
// so from what all others predict and the other pulls hardest against it.
func (f *Result) contradictions() {
	n := len(f.model.tests)
	for a := range n {
		against, most := -1, 0.0
		for b := range n {
			if a == b {
				continue
			}
			opposed := -dot(f.pull(a), f.pull(b))
			if opposed > most {
				against, most = b, opposed
			}
			if b > a && opposed > 0 {
				f.contradict(a, b, math.Max(math.Abs(f.given(a, b)), math.Abs(f.given(b, a))))
			}
		}
		if against >= 0 {
			f.contradict(min(a, against), max(a, against), math.Abs(f.Statements[a].Surprise))
		}
	}
}

func (f *Result) contradict(a, b int, sigmas float64) {
	if !(sigmas > contradiction) {
		return
	}
	for i := range f.Contradictions {
		if c := &f.Contradictions[i]; c.A == a && c.B == b {
			c.Sigmas = math.Max(c.Sigmas, sigmas)
			return
		}
	}
	f.Contradictions = append(f.Contradictions, Contradiction{
		A: a, B: b, OfA: *f.model.tests[a].Statement, OfB: *f.model.tests[b].Statement, Sigmas: sigmas,
	})
}

// given is how far statement a is from what the prior and statement b alone
// predict, with residuals r(x) = r̂ + J·(x − x̂) taken as linear:
//
//	C = (1 + J_bᵀJ_b)⁻¹,  x = C·J_bᵀ(J_b·x̂ − r̂_b)
func (f *Result) given(a, b int) float64 {
	m := f.model
	n := len(m.active)
	ja, jb := f.rows(a), f.rows(b)
	at := mat.NewVecDense(n, f.solution.X)
	residuals := func(i int) *mat.VecDense {
		return mat.NewVecDense(m.tests[i].count, f.solution.Residuals[m.start[i]:m.start[i]+m.tests[i].count])
	}
	var precision mat.SymDense
	precision.SymOuterK(1, jb.T())
	for i := range n {
		precision.SetSym(i, i, precision.At(i, i)+1)
	}
	var chol mat.Cholesky
	var c mat.SymDense
	if !chol.Factorize(&precision) || chol.InverseTo(&c) != nil {
		return math.NaN()
	}
	var wanted, right, x, off, d mat.VecDense
	wanted.MulVec(jb, at)
	wanted.SubVec(&wanted, residuals(b))
	right.MulVec(jb.T(), &wanted)
	x.MulVec(&c, &right)
	off.SubVec(&x, at)
	d.MulVec(ja, &off)
	d.AddVec(&d, residuals(a))
	return distance(d.RawVector().Data, ja, &c)
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
