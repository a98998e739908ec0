package fit_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
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
	if w := r.Warnings[0]; !strings.Contains(w, "later than the 40 min stated: that is the unsafe side, trust the 40 min; statement 2, a film gels in 9 h at 20 °C, pulls it there") {
		t.Errorf("told first: %s", w)
	}
	known := fitted(t, statements(t, "  - pot_life: {time: 40 min, mass: 150 g, at: 25 °C, in: {cup: 60 mm}, end: gel}\n  - film_gel: {time: 9 h, at: 25 °C}\n"))
	if len(known.Contradictions) != 1 || len(known.Misses) != 2 || !known.Misses[0].Unsafe || known.Misses[1].Unsafe {
		t.Errorf("%v, misses %+v", known.Contradictions, known.Misses)
	}
	if w := known.Warnings[0]; !strings.Contains(w, "unsafe side") {
		t.Errorf("told first: %s", w)
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
			if !slices.Contains(r.Warnings, m.String()) {
				t.Errorf("no doubt says %v", m)
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

// TestPlainFactors: a doubt of a resin a thousand times off says so in figures that anybody
// reads.
func TestPlainFactors(t *testing.T) {
	r := fitted(t, statements(t, "  - film_gel: {time: 10 s, at: 25 °C}\n"))
	i := slices.IndexFunc(r.Warnings, func(w string) bool { return strings.Contains(w, "differs by a factor of") })
	if i < 0 {
		t.Fatalf("warnings %q", r.Warnings)
	}
	if rate := math.Exp(parameter(t, r, "rate").Value); !(rate > 1000) || strings.Contains(r.Warnings[i], "e+") {
		t.Errorf("rate × %g: %s", rate, r.Warnings[i])
	}
}
