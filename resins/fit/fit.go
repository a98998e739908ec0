package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit/leastsquares"
)

// A Result is a record fitted to statements, and what it is worth.
type Result struct {
	Record *resins.Record // the new one
	Prior  *resins.Record // the nearest system, with the mix of the statements

	Parameters     []Parameter
	Statements     []Judged
	Contradictions []Contradiction
	Misses         []Miss
	Untold         []Moves // what the statements cannot tell
	Warnings       []warning.Warning
	Renamed        []warning.Warning // keys that statements and prior have under names of before

	model      *model
	solution   *leastsquares.Result
	covariance [][]float64 // of the active parameters, in σ of the prior
	pulls      [][]float64 // see measure
	precision  *mat.SymDense
	slope      []float64
	seen       func(Progress)
	more       int            // contradictions beyond those told
	widest     [named]float64 // contradictions about a parameter, over the σ at which they are called that
}

// A Parameter of the fit, before and after. Values are changes against the
// prior: of ln for factors, otherwise in the unit.
type Parameter struct {
	Moves      Moves
	File       string // of the log whose first temperature it is
	Unit       string // "ln", "J/mol" or "K"
	Value      float64
	PriorSigma float64
	Sigma      float64
	Told       bool // the statements narrow it to 0.7 of the prior or less
}

// told is the narrowing from which on a parameter counts as told by statements:
// at 0.7 they know as much as the prior does.
const told = 0.7

// An OutOfRange is an energy, of the cure or of the flow, that the statements ask for and no
// epoxy has.
type OutOfRange struct {
	System string
	Energy quantity.MolarEnergy
	Flow   bool   // it is the flow's
	Blame  string // the statements that pull hardest
}

// Problem is what is wrong, in a line.
func (e *OutOfRange) Problem() string {
	what, least, greatest := "an activation", leastEnergy/1e3, greatestEnergy/1e3
	if e.Flow {
		what, least, greatest = "a flow", resins.LeastFlowEnergy.In("kJ/mol"), resins.GreatestFlowEnergy.In("kJ/mol")
	}
	return fmt.Sprintf("the statements ask for %s energy of %.0f kJ/mol, outside %.0f to %.0f: %s", what, math.Round(e.Energy.In("kJ/mol"))+0, least, greatest, e.Blame)
}

// Mend is what to do about it.
func (e *OutOfRange) Mend() string {
	what := "times"
	if e.Flow {
		what = "values"
	}
	return "check " + what + " and temperatures of these statements, and whether " + e.System + " is the right system to start from"
}

func (e *OutOfRange) Error() string { return e.Problem() + "\n   " + e.Mend() }

// ErrNothing tells that there are no statements to fit.
var ErrNothing = errors.New("there are no statements to fit; add one, such as a pot life")

// A Progress is how far a fit is: at a step of its search, or, once that is done, at so many
// statements that have been compared with all others.
type Progress struct {
	Step       int // 0: the search is done
	Judged     int
	Statements int // of the fit
}

// Fit moves the prior to where the statements want it. Logs must have been read.
// The error is an [*OutOfRange], a [*NoRecord], [ErrNothing], or that of a simulation.
func Fit(s *Statements, prior *resins.Record) (*Result, error) {
	return FitSeen(s, prior, func(Progress) {})
}

// FitSeen is [Fit] that tells how far it is, from several goroutines.
func FitSeen(s *Statements, prior *resins.Record, seen func(Progress)) (*Result, error) {
	if len(s.List) == 0 {
		return nil, ErrNothing
	}
	f := &Result{seen: seen, Prior: withMix(prior, s.Mix), Renamed: slices.Concat(s.Renamed, prior.Renamed)}
	f.Warnings = append(f.Warnings, s.Warnings...)
	if s.Mix != nil {
		f.Warnings = append(f.Warnings, RatioWarnings(*s.Mix, s.ByVolume, prior)...)
	}
	var warnings []warning.Warning
	var err error
	if f.model, warnings, err = newModel(f.Prior, s.List); err != nil {
		return nil, err
	}
	f.Warnings = append(f.Warnings, warnings...)
	if err := f.solve(); err != nil {
		return nil, err
	}
	if err := f.judge(); err != nil {
		return nil, err
	}
	f.tell()
	if err := f.record(s); err != nil {
		return nil, err
	}
	if err := f.readable(); err != nil {
		return nil, err
	}
	f.warn()
	return f, nil
}

// solve finds the most probable resin and refuses energies that none can have.
func (f *Result) solve() error {
	start, err := f.model.scout()
	if err != nil {
		return err
	}
	f.model.seen = func(step int) { f.seen(Progress{Step: step, Statements: len(f.model.tests)}) }
	f.solution, err = f.model.solve(start)
	f.model.seen = nil // fits of all but one are none of the search
	if err != nil {
		return err
	}
	f.measure()
	for _, u := range f.model.runs { // fits of all but one begin here
		u.seen.pin()
	}
	n := len(f.model.active)
	f.covariance = make([][]float64, n)
	for i := range f.covariance {
		f.covariance[i] = make([]float64, n)
		for j := range f.covariance[i] {
			f.covariance[i][j] = f.solution.Covariance.At(i, j)
		}
	}
	if !f.solution.Converged {
		f.Warnings = append(f.Warnings, NotSettled{Steps: f.solution.Iterations})
	}
	resin, err := f.model.resin(f.solution.X)
	if err != nil {
		return err
	}
	for _, e := range energies(resin.Cure) {
		if e < leastEnergy || e > greatestEnergy {
			return &OutOfRange{System: f.Prior.Name, Energy: e, Blame: f.blame(energy)}
		}
	}
	if e := resin.Viscosity.FlowEnergy(); !(e >= resins.LeastFlowEnergy && e <= resins.GreatestFlowEnergy) {
		return &OutOfRange{System: f.Prior.Name, Energy: e, Flow: true, Blame: f.blame(flowEnergy)}
	}
	return nil
}

// A NoRecord tells that no record can hold the resin that the statements ask for.
type NoRecord struct{ System, Fault string }

// Problem is what is wrong, in a line.
func (e *NoRecord) Problem() string {
	return "the statements ask for a resin that no record can hold: " + e.Fault
}

// Mend is what to do about it.
func (e *NoRecord) Mend() string {
	return "check the statements, and whether " + e.System + " is the right system to start from"
}

func (e *NoRecord) Error() string { return e.Problem() + "\n   " + e.Mend() }

// readable refuses a record that would not be read again from its file.
func (f *Result) readable() error {
	_, err := resins.Read("", f.Record.File())
	var faults *document.Faults
	if errors.As(err, &faults) {
		return &NoRecord{System: f.Prior.Name, Fault: faults.List[0].Problem}
	}
	return err
}

// blame names the statements that pull hardest at a parameter.
func (f *Result) blame(k int) string {
	at := f.model.index[k]
	if at < 0 {
		return "the record that the fit starts from has it already"
	}
	pulls := make([]float64, len(f.model.tests))
	hardest := 0.0
	for i := range pulls {
		pulls[i] = f.pulls[i][at]
		hardest = math.Max(hardest, math.Abs(pulls[i]))
	}
	var names []string
	for i, t := range f.model.tests {
		if hardest > 0 && math.Abs(pulls[i]) >= hardest/2 {
			names = append(names, t.String())
		}
	}
	return strings.Join(names, "; ")
}

// measure keeps what judging asks again and again: the gradient that each test's residuals
// have at the solution, per active parameter, and of all tests and the prior JᵀJ and Jᵀr.
func (f *Result) measure() {
	m, n := f.model, len(f.model.active)
	f.pulls = make([][]float64, len(m.tests))
	for i, t := range m.tests {
		f.pulls[i] = make([]float64, n)
		for k := m.start[i]; k < m.start[i]+t.count; k++ {
			floats.AddScaled(f.pulls[i], f.solution.Residuals[k], f.solution.Jacobian.RawRowView(k))
		}
	}
	f.precision = mat.NewSymDense(n, nil)
	f.precision.SymOuterK(1, f.solution.Jacobian.T())
	var slope mat.VecDense
	slope.MulVec(f.solution.Jacobian.T(), mat.NewVecDense(m.count, f.solution.Residuals))
	f.slope = slope.RawVector().Data
}

// tell fills the parameters and names those that stay at the prior.
func (f *Result) tell() {
	for k, p := range f.model.all {
		q := Parameter{Moves: p.moves, File: p.file, Unit: p.unit, PriorSigma: p.sigma, Sigma: p.sigma}
		if i := f.model.index[k]; i >= 0 {
			narrowed := math.Sqrt(f.covariance[i][i])
			q.Value = p.sigma * f.solution.X[i]
			q.Sigma = p.sigma * narrowed
			q.Told = narrowed <= told
		}
		f.Parameters = append(f.Parameters, q)
		if !q.Told && k < named {
			f.Untold = append(f.Untold, q.Moves)
		}
	}
}

// warn adds what a person should know beside the figures.
func (f *Result) warn() {
	f.warnOfRange()
	for _, k := range []int{rate, viscosity} {
		said := f.Prior.Spread.Time
		if k == viscosity {
			said = f.Prior.Spread.Viscosity
		}
		factor := math.Exp(math.Abs(f.model.value(k, f.solution.X)))
		if f.model.index[k] >= 0 && said > 1 && factor > said {
			f.Warnings = append(f.Warnings, FarFromSystem{What: f.model.all[k].moves, Factor: factor, System: f.Prior.Name, Claims: said})
		}
	}
	var unsafe []warning.Warning // told first
	for _, m := range f.Misses {
		if m.Unsafe {
			unsafe = append(unsafe, LongerThanStated{m})
		} else {
			f.Warnings = append(f.Warnings, MissedStatement{m})
		}
	}
	for _, c := range f.Contradictions {
		f.Warnings = append(f.Warnings, c)
	}
	if f.more > 0 {
		f.Warnings = append(f.Warnings, MoreContradictions{Pairs: f.more, Above: contradiction})
	}
	f.Warnings = append(unsafe, f.Warnings...)
}

// warnOfRange names the tests at temperatures at which the cure law is not to be
// trusted.
func (f *Result) warnOfRange() {
	valid := f.Prior.Valid
	for i, t := range f.model.tests {
		at := t.At
		if t.Kind == CupLog {
			at = t.Room
		}
		if (t.aboutCure() || t.Kind == Glass) && !valid.Holds(at) {
			f.Warnings = append(f.Warnings, OutsideRange{Number: i + 1, Statement: *t.Statement, System: f.Prior.Name, Valid: valid})
		}
	}
}

// spreadOf turns a standard deviation of ln into a spread.
func spreadOf(logSigma float64) float64 { return math.Exp(logSigma / ensemble.Sigma(math.E)) }
