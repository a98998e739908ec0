package fit

import (
	"fmt"
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

	statement, against, said, says string
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
		m := Miss{Of: i, Sigmas: j.Residual, Unsafe: slow, Against: f.against(i), statement: j.Statement.String(), against: f.Prior.Name}
		if m.Against >= 0 {
			m.against = f.Statements[m.Against].Statement.String()
		}
		if j.Measures == "time" && j.Statement.Kind != CupLog {
			m.said, m.says = spoken(j.Said), spoken(j.Says)
		}
		f.Misses = append(f.Misses, m)
	}
}

// against is the statement that pulls hardest against one; -1 where none does so harder
// than the prior, whose pull at x̂ is x̂ itself.
func (f *Result) against(i int) int {
	pull := f.pull(i)
	strongest, most := -1, -dot(pull, f.solution.X)
	for k := range f.Statements {
		if k == i {
			continue
		}
		if opposed := -dot(pull, f.pull(k)); opposed > most {
			strongest, most = k, opposed
		}
	}
	return strongest
}

// String is the doubt in a line.
func (m Miss) String() string {
	head := fmt.Sprintf("statement %d, %s: ", m.Of+1, m.statement)
	cause := "; " + m.against + ", from which the fit starts, pulls it there"
	if m.Against >= 0 {
		cause = fmt.Sprintf("; statement %d, %s, pulls it there", m.Against+1, m.against)
	}
	switch {
	case m.Unsafe:
		return head + fmt.Sprintf("the new record now says %s, later than the %s stated: that is the unsafe side, trust the %s", m.says, m.said, m.said) + cause
	case m.says != "":
		return head + fmt.Sprintf("the new record now says %s, %.1f standard deviations of this statement off", m.says, math.Abs(m.Sigmas)) + cause
	}
	return head + fmt.Sprintf("the new record misses it by %.1f standard deviations of this statement", math.Abs(m.Sigmas)) + cause
}

// spoken is a time in s as people say it.
func spoken(s float64) string {
	m := math.Round(s / 60)
	switch {
	case math.IsInf(s, 1):
		return "never"
	case s < 300:
		return fmt.Sprint(quantity.Time(math.Round(s)))
	case m < 100:
		return fmt.Sprintf("%.0f min", m)
	}
	return fmt.Sprintf("%.0f h %02.0f min", math.Floor(m/60), math.Mod(m, 60))
}
