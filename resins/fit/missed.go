package fit

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
)

// missing is how many of its own σ the record may be off a statement before that is told:
// one statement in 22 by chance.
const missing = 2.0

// late is the same for a time that the record promises longer than was said. That is the
// unsafe side, so that the statement's own 9 in 10 are enough to tell it.
var late = 1 / ensemble.Sigma(math.E)

// A Miss is a statement that the new record does not keep to, by more than the accuracy
// with which it was heard.
type Miss struct {
	Of     int     // index of the statement
	Sigmas float64 // of the statement alone, with the sign of [Judged.Residual]
	// Unsafe tells that the record promises a longer time than the statement.
	Unsafe bool
	// Against is the index of the statement that pulls hardest the other way; -1: it is
	// the system that the fit starts from.
	Against int

	Statement Statement
	Other     Statement // the one that pulls; none: it is the system
	System    string    // that the fit starts from
	// Said and Says are times of the statement and of the new record, +Inf for never; 0
	// where it is not of a time that was read off a clock.
	Said, Says quantity.Time
}

// misses finds them. A pair of which one is missed need not be a [Contradiction]: with a
// cup that is not known, both may be right at the far end of their accuracy.
func (f *Result) misses() {
	for i := range f.Statements {
		j := &f.Statements[i]
		slow := (j.Statement.Kind == PotLife || j.Statement.Kind == FilmGel) && j.Residual > late
		if !slow && !(math.Abs(j.Residual) > missing) {
			continue
		}
		m := Miss{Of: i, Sigmas: j.Residual, Unsafe: slow, Against: f.against(i), Statement: j.Statement, System: f.Prior.Name}
		if m.Against >= 0 {
			m.Other = f.Statements[m.Against].Statement
		}
		if j.Measures == "time" && j.Statement.Kind != CupLog {
			m.Said, m.Says = quantity.Time(j.Said), quantity.Time(j.Says)
		}
		f.Misses = append(f.Misses, m)
	}
}

// against is the statement that pulls hardest against one; -1 where none does so harder
// than the prior, whose pull at x̂ is x̂ itself.
func (f *Result) against(i int) int {
	pull := f.pulls[i]
	strongest, most := -1, -dot(pull, f.solution.X)
	for k := range f.Statements {
		if k == i {
			continue
		}
		if opposed := -dot(pull, f.pulls[k]); opposed > most {
			strongest, most = k, opposed
		}
	}
	return strongest
}
