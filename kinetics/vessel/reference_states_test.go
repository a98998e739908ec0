package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// stateTolerance bounds the difference of a state from the reference: in α and
// in T, K. Where a runaway is under way a state is worth its time: the
// difference may be what the slope makes of the allowed error in time.
type stateTolerance struct{ alpha, kelvin, time float64 }

// compare demands a state of the reference.
func (tol stateTolerance) compare(t *testing.T, b *vessel.Bath, got vessel.State, want referenceState) (worst float64) {
	t.Helper()
	slope := make([]float64, 3)
	next, err := b.Advance(got, quantity.Time(want.At), quantity.Time(want.At*(1+tol.time)+1e-3), vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	slope[0], slope[1], slope[2] = next.Alpha-got.Alpha, float64(next.Temperature-got.Temperature), next.Phi-got.Phi
	alpha := tol.alpha + math.Abs(slope[0])
	kelvin := tol.kelvin + math.Abs(slope[1])
	for _, c := range []struct {
		what             string
		got, want, bound float64
	}{
		{"α", got.Alpha, want.Alpha, alpha},
		{"T", float64(got.Temperature), want.Temperature, kelvin},
		// φ runs to some ten, with the error of α for each.
		{"φ", got.Phi, want.Phi, 10*tol.alpha + math.Abs(slope[2])},
		{"mass", float64(got.Mass), want.Mass, 1e-12},
	} {
		d := math.Abs(c.got - c.want)
		worst = math.Max(worst, d/c.bound)
		if !(d <= c.bound) {
			t.Errorf("at %g s %s is %.12g, want %.12g ± %.2g", want.At, c.what, c.got, c.want, c.bound)
		}
	}
	return worst
}

// TestReferenceStepEnds executes every case step by step through State and
// Advance. At Working precision a step errs by 2e-6 in α and 1 mK; over a case
// some ten times that adds up. At Strict precision it is 1e-10 and 1e-7 K a
// step, and the reference itself, good to 7e-9, takes its share.
func TestReferenceStepEnds(t *testing.T) {
	for name, c := range map[string]struct {
		precision vessel.Precision
		tolerance stateTolerance
	}{
		"working": {vessel.Working, stateTolerance{2e-5, 1e-2, 1e-5}},
		"strict":  {vessel.Strict, stateTolerance{1e-8, 1e-5, 1e-8}},
	} {
		t.Run(name, func(t *testing.T) {
			worst := 0.0
			forEachReference(t, func(t *testing.T, r referenceCase, want referenceResult) {
				b := r.bath(t, c.precision)
				state, now := r.Initial.state(), 0.0
				for i, step := range r.Steps {
					if step.Kind == "pour" {
						state = step.poured(b.Resin(), state)
					} else {
						next, err := b.Advance(state, quantity.Time(now), quantity.Time(now+step.Duration), step.tow())
						if err != nil {
							t.Fatal(err)
						}
						state, now = next, now+step.Duration
					}
					worst = math.Max(worst, c.tolerance.compare(t, b, state, want.StepEnds[i]))
					checkViscosity(t, b, state, want.StepEnds[i], c.tolerance)
				}
			})
			t.Logf("worst difference: %.2f of what is allowed", worst)
		})
	}
}

// checkViscosity compares ln η: near gel 1/(gel − α) amplifies errors of α.
func checkViscosity(t *testing.T, b *vessel.Bath, got vessel.State, want referenceState, tol stateTolerance) {
	t.Helper()
	eta := float64(got.Viscosity(b.Resin()))
	if want.Viscosity == nil {
		if !math.IsInf(eta, 1) {
			t.Errorf("at %g s η is %g, want it gelled", want.At, eta)
		}
		return
	}
	d := math.Abs(math.Log(eta / *want.Viscosity))
	// (a + bα)/(gel − α) for α, E/(R·T²) ≈ 0.1/K for T.
	bound := 10*tol.alpha + 3*tol.alpha/(b.Resin().Gel-got.Alpha) + 0.1*tol.kelvin
	if !(d <= bound) {
		t.Errorf("at %g s ln η differs by %.2g, allowed %.2g", want.At, d, bound)
	}
}

// TestTraceMeetsTheReference reads the tenths of cases of one step off the dense
// output, which must be as good as the steps.
func TestTraceMeetsTheReference(t *testing.T) {
	forEachReference(t, func(t *testing.T, r referenceCase, want referenceResult) {
		if len(r.Steps) != 1 {
			t.Skip("several steps: their ends are checked one by one")
		}
		b, total := r.bath(t, vessel.Working), quantity.Time(r.Steps[0].Duration)
		_, samples, err := b.Trace(r.Initial.state(), 0, total, total/10, r.Steps[0].tow())
		if err != nil {
			t.Fatal(err)
		}
		if len(samples) != 11 {
			t.Fatalf("%d samples, want the start and ten", len(samples))
		}
		for i, tenth := range want.Tenths {
			s := samples[i+1]
			if !(math.Abs(float64(s.At)-tenth.At) <= 1e-9*tenth.At) {
				t.Fatalf("sample %d at %g s, want %g", i+1, float64(s.At), tenth.At)
			}
			stateTolerance{2e-5, 1e-2, 1e-5}.compare(t, b, s.State, tenth)
		}
	})
}
