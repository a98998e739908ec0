package fit

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A Contradiction is a pair of statements that cannot both be right.
type Contradiction struct {
	A, B     int // indices of the statements
	OfA, OfB Statement
	Sigmas   float64
}

// contradiction is how many σ two statements must be apart to be called that:
// one pair in 370 by chance.
const contradiction = 3.0

// An alone is what prior and one statement alone say, with residuals r(x) = r̂ + J·(x − x̂)
// taken as linear:
//
//	N = JᵀJ,  x = (1 + N)⁻¹·(N·x̂ − Jᵀr̂)
type alone struct {
	normal *mat.SymDense
	x      *mat.VecDense
	square float64 // |r̂|²
}

func (f *Result) aloneWith(i int) alone {
	m, n := f.model, len(f.model.active)
	j := f.rows(i)
	a := alone{normal: mat.NewSymDense(n, nil), x: mat.NewVecDense(n, nil)}
	a.normal.SymOuterK(1, j.T())
	for _, r := range f.solution.Residuals[m.start[i] : m.start[i]+m.tests[i].count] {
		a.square += r * r
	}
	var right mat.VecDense
	right.MulVec(a.normal, mat.NewVecDense(n, f.solution.X))
	right.SubVec(&right, mat.NewVecDense(n, f.pulls[i]))
	var chol mat.Cholesky
	if !chol.Factorize(onePlus(a.normal)) || chol.SolveVecTo(a.x, &right) != nil {
		for k := range n {
			a.x.SetVec(k, math.NaN())
		}
	}
	return a
}

func onePlus(list ...*mat.SymDense) *mat.SymDense {
	n := list[0].SymmetricDim()
	sum := mat.NewSymDense(n, nil)
	for i := range n {
		sum.SetSym(i, i, 1)
	}
	for _, s := range list {
		sum.AddSym(sum, s)
	}
	return sum
}

// given is how far statement a is from what the prior and statement b alone predict:
// with d = r̂_a + J_a·(x_b − x̂) and C_b = (1 + N_b)⁻¹, χ² = dᵀ(1 + J_a·C_b·J_aᵀ)⁻¹d, which
// is |d|² − (J_aᵀd)ᵀ·(1 + N_a + N_b)⁻¹·(J_aᵀd) without a matrix as large as the readings.
func (f *Result) given(a int, of, by alone) float64 {
	n := len(f.model.active)
	var off, along, slope, solved mat.VecDense
	off.SubVec(by.x, mat.NewVecDense(n, f.solution.X))
	pull := mat.NewVecDense(n, f.pulls[a])
	along.MulVec(of.normal, &off)
	square := of.square + 2*mat.Dot(pull, &off) + mat.Dot(&off, &along)
	slope.AddVec(pull, &along)
	var chol mat.Cholesky
	if !chol.Factorize(onePlus(of.normal, by.normal)) || chol.SolveVecTo(&solved, &slope) != nil {
		return math.NaN()
	}
	chi := math.Max(0, square-mat.Dot(&slope, &solved))
	if k := f.model.tests[a].count; k > 1 {
		return asNormal(chi/bent, k)
	}
	return math.Sqrt(chi)
}

// A single is a statement of one residual, for which all that is closed: with row j and
// residual r̂, x = j·w, w = (j·x̂ − r̂)/(1 + |j|²).
type single struct {
	row               []float64
	residual          float64
	here, square, way float64 // j·x̂, |j|², w
}

func (f *Result) single(i int) single {
	k := f.model.start[i]
	s := single{row: f.solution.Jacobian.RawRowView(k), residual: f.solution.Residuals[k]}
	s.here, s.square = dot(s.row, f.solution.X), dot(s.row, s.row)
	s.way = (s.here - s.residual) / (1 + s.square)
	return s
}

// given is [Result.given] of two singles.
func (s *single) given(by *single) float64 {
	both := dot(s.row, by.row)
	d := s.residual + both*by.way - s.here
	return math.Abs(d) / math.Sqrt(1+s.square-both*both/(1+by.square))
}

// mostContradictions is how many pairs are told one by one: of some thousand statements, a
// million pairs may contradict each other, and nobody reads more than these.
const mostContradictions = 100

// MoreContradictions are pairs that contradict each other less than those that are told.
type MoreContradictions struct {
	Pairs int
	Above float64 // σ, of each
}

// Code names the kind.
func (MoreContradictions) Code() string { return "more-statements-contradict" }

// A pair of statements is a contradiction before it is told.
type pair struct {
	a, b   int
	sigmas float64
}

// contradictions finds the pairs: they pull in opposite directions, and either
// the one is more than 3σ from what prior and the other alone predict, or it is
// so from what all others predict and the other pulls hardest against it.
func (f *Result) contradictions() {
	n := len(f.model.tests)
	singles, logs, bears := make([]single, n), map[int]alone{}, make([]uint, n)
	for i, t := range f.model.tests {
		if t.count == 1 {
			singles[i] = f.single(i)
		}
		for _, k := range t.tells() {
			bears[i] |= 1 << k
		}
	}
	many := func(i int) alone {
		if _, known := logs[i]; !known {
			logs[i] = f.aloneWith(i)
		}
		return logs[i]
	}
	apart := func(a, b int) float64 {
		if s, t := &singles[a], &singles[b]; s.row != nil && t.row != nil {
			return math.Max(s.given(t), t.given(s))
		}
		ofA, ofB := many(a), many(b)
		return math.Max(f.given(a, ofA, ofB), f.given(b, ofB, ofA))
	}
	against := make([]int, n)
	for a := range n {
		most := 0.0
		against[a] = -1
		for b := range n {
			if opposed := -dot(f.pulls[a], f.pulls[b]); a != b && opposed > most {
				against[a], most = b, opposed
			}
		}
	}
	var told []pair
	all := 0
	for a := range n {
		for b := a + 1; b < n; b++ {
			sigmas := 0.0
			if dot(f.pulls[a], f.pulls[b]) < 0 {
				sigmas = apart(a, b)
			}
			if against[a] == b {
				sigmas = math.Max(sigmas, math.Abs(f.Statements[a].Surprise))
			}
			if against[b] == a {
				sigmas = math.Max(sigmas, math.Abs(f.Statements[b].Surprise))
			}
			if !(sigmas > contradiction) {
				continue
			}
			all++
			f.widen(bears[a]&bears[b], sigmas)
			if told = append(told, pair{a, b, sigmas}); len(told) >= 10*mostContradictions {
				told = hardest(told)
			}
		}
	}
	f.tellContradictions(hardest(told), all)
}

// hardest keeps the pairs that contradict each other most.
func hardest(pairs []pair) []pair {
	slices.SortStableFunc(pairs, func(p, q pair) int { return cmp.Compare(q.sigmas, p.sigmas) })
	return pairs[:min(len(pairs), mostContradictions)]
}

// widen notes how hard statements contradict each other that both bear on some parameters.
func (f *Result) widen(both uint, sigmas float64) {
	for k := range f.widest {
		if both&(1<<k) != 0 {
			f.widest[k] = math.Max(f.widest[k], sigmas/contradiction)
		}
	}
}

// tellContradictions names the pairs, in the order of their statements.
func (f *Result) tellContradictions(pairs []pair, all int) {
	f.more = all - len(pairs)
	slices.SortFunc(pairs, func(p, q pair) int { return cmp.Or(p.a-q.a, p.b-q.b) })
	for _, p := range pairs {
		f.Contradictions = append(f.Contradictions, Contradiction{
			A: p.a, B: p.b, OfA: *f.model.tests[p.a].Statement, OfB: *f.model.tests[p.b].Statement, Sigmas: p.sigmas,
		})
	}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
