package fit_test

import (
	"math"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/warning"
	"potlife/resins/fit"
)

// TestMissesAreTold: a label and a film that two rates only could keep, 2.4 standard
// deviations apart and thus no contradiction, since the label names no cup. The record
// promises a longer life than the label does by more than the 30 % it is heard with: that is
// told first, with whom it is due to. In a cup that is known the pair contradicts too.
func TestMissesAreTold(t *testing.T) {
	const film = "  - film_gel: {time: 9 h, at: 20 °C}\n"
	r := fitted(t, statements(t, "  - pot_life: {time: 40 min, mass: 150 g, at: 25 °C, end: gel}\n"+film))
	j := r.Statements[0]
	if !(j.Says > 1.3*j.Said) || len(r.Contradictions) != 0 {
		t.Fatalf("the case is another one: %+v, %v", j, r.Contradictions)
	}
	if len(r.Misses) != 1 || !r.Misses[0].Unsafe || r.Misses[0].Of != 0 || r.Misses[0].Against != 1 {
		t.Fatalf("misses %+v", r.Misses)
	}
	late, is := r.Warnings[0].(fit.LongerThanStated)
	if !is || late.Miss != r.Misses[0] || float64(late.Said) != j.Said || float64(late.Says) != j.Says || late.Statement != j.Statement || late.Other != r.Statements[1].Statement {
		t.Errorf("told first: %+v", r.Warnings[0])
	}
	known := fitted(t, statements(t, "  - pot_life: {time: 40 min, mass: 150 g, at: 25 °C, in: {cup: 60 mm}, end: gel}\n  - film_gel: {time: 9 h, at: 25 °C}\n"))
	if len(known.Contradictions) != 1 || len(known.Misses) != 2 || !known.Misses[0].Unsafe || known.Misses[1].Unsafe {
		t.Errorf("%v, misses %+v", known.Contradictions, known.Misses)
	}
	if first, is := known.Warnings[0].(fit.LongerThanStated); !is || first.Miss != known.Misses[0] {
		t.Errorf("told first: %+v", known.Warnings[0])
	}
}

// TestMissesAreThoseOfTheResiduals: what is told is what the residuals say, whichever way,
// and statements that the record keeps to are not told.
func TestMissesAreThoseOfTheResiduals(t *testing.T) {
	for _, list := range []string{
		"  - film_gel: {time: 5 h, at: 25 °C}\n  - film_gel: {time: 150 min, at: 25 °C}\n  - film_gel: {time: 310 min, at: 25 °C}\n",
		"  - film_gel: {time: 5 h, at: 25 °C}\n  - film_gel: {time: 290 min, at: 25 °C}\n  - film_gel: {time: 310 min, at: 25 °C}\n",
		"  - viscosity: {value: 600 mPa·s, at: 25 °C}\n  - viscosity: {value: 1200 mPa·s, at: 25 °C}\n",
		"  - conversion: {is: 0.5, after: {time: 5 h, at: 25 °C}}\n  - conversion: {is: 0.8, after: {time: 5 h, at: 25 °C}}\n",
	} {
		r := fitted(t, statements(t, list))
		var told, want []int
		for _, m := range r.Misses {
			told = append(told, m.Of)
			want := warning.Warning(fit.MissedStatement{Miss: m})
			if m.Unsafe {
				want = fit.LongerThanStated{Miss: m}
			}
			if !slices.Contains(r.Warnings, want) {
				t.Errorf("no warning says %+v", m)
			}
		}
		for i, j := range r.Statements {
			// later than the 9 in 10 of the statement (1.645 σ), or two σ either way
			slow := j.Measures == "time" && math.Log(j.Says/j.Said) > math.Log(1.1)
			if slow || math.Abs(j.Residual) > 2 {
				want = append(want, i)
			}
		}
		if !slices.Equal(told, want) {
			t.Errorf("%s: told %v, the residuals say %v", list, told, want)
		}
	}
	if !(math.Abs(1/ensemble.Sigma(math.E)-1.645) < 1e-3) {
		t.Error("nine in ten are no longer 1.645 σ")
	}
}
