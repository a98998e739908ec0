package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// The reference's events, each found alone: the other limits are out of reach.
const (
	unreachedKelvin = 1e4
	unreachedPaS    = 1e60
)

// eventTime runs a case under a watch for one limit and returns when it is
// crossed, NaN for never or not before gel, which is always a limit. A state of the reference that starts above a limit
// has to fall below it first, whereas a watch calls that life over; so the
// watch begins after the steps that start above.
func eventTime(t *testing.T, r referenceCase, p vessel.Precision, l vessel.Limits, by vessel.Limit, above func(vessel.State) bool) float64 {
	t.Helper()
	b := r.bath(t, p)
	if by == vessel.NotClean {
		b.Sticking(l)
	}
	w := vessel.NewWatch(b, l)
	state, now, watching := r.Initial.state(), quantity.Time(0), false
	for _, step := range r.Steps {
		if step.Kind == "pour" {
			state = step.poured(b.Resin(), state)
			continue
		}
		end := now + quantity.Time(step.Duration)
		watching = watching || !above(state)
		var err error
		if watching {
			state, _, err = w.Advance(state, now, end, step.tow())
		} else {
			state, err = b.Advance(state, now, end, step.tow())
		}
		if err != nil {
			t.Fatal(err)
		}
		if w.Ended() {
			name, at := w.End()
			if name != by {
				return math.NaN()
			}
			return float64(at)
		}
		now = end
	}
	return math.NaN()
}

func never(vessel.State) bool { return false }

// compareTime demands a time of the reference, nil meaning never.
func compareTime(t *testing.T, what string, got float64, want *float64, tol float64) (relative float64) {
	t.Helper()
	if want == nil {
		if !math.IsNaN(got) && !math.IsInf(got, 1) {
			t.Errorf("%s at %g s, want never", what, got)
		}
		return 0
	}
	if *want == 0 {
		relative = math.Abs(got)
	} else {
		relative = math.Abs(got / *want - 1)
	}
	if !(relative <= tol) {
		t.Errorf("%s at %.9g s, want %.9g: %.2g relative, allowed %g", what, got, *want, relative, tol)
	}
	return relative
}

// TestReferenceEvents: every limit of every case. At Working precision a time is
// good to 1e-4, far below any spread of a record; at Strict precision to 1e-7,
// which is the reference's own error, 7e-9, and room for a crossing at a
// shallow angle.
func TestReferenceEvents(t *testing.T) {
	for name, c := range map[string]struct {
		precision vessel.Precision
		tolerance float64
		why       string
	}{
		"working": {vessel.Working, 1e-4, "what working precision promises of a time"},
		"strict":  {vessel.Strict, 1e-7, "the reference's own error, 7e-9, and room for a crossing at a shallow angle"},
	} {
		t.Run(name, func(t *testing.T) {
			worst := 0.0
			see := func(relative float64) { worst = math.Max(worst, relative) }
			forEachReference(t, func(t *testing.T, r referenceCase, want referenceResult) {
				far := vessel.Limits{
					BathViscosity: unreachedPaS, LaidViscosity: unreachedPaS, BathTemperature: unreachedKelvin,
					Mandrel: vessel.Constant(unreachedKelvin / 10),
				}
				see(compareTime(t, "gel", eventTime(t, r, c.precision, far, vessel.Gel, never), want.Gel, c.tolerance))
				thick := far
				thick.BathViscosity = quantity.Viscosity(r.Limits.Viscosity)
				see(compareTime(t, "viscosity limit", eventTime(t, r, c.precision, thick, vessel.BathViscosity, never), want.Viscosity, c.tolerance))
				doubled := far
				doubled.BathViscosity = quantity.Viscosity(2 * want.InitialViscosity)
				see(compareTime(t, "doubled", eventTime(t, r, c.precision, doubled, vessel.BathViscosity, never), want.Doubled, c.tolerance))
				hot := far
				hot.BathTemperature = quantity.Temperature(r.Limits.Temperature)
				above := func(s vessel.State) bool { return s.Temperature >= hot.BathTemperature }
				see(compareTime(t, "temperature limit", eventTime(t, r, c.precision, hot, vessel.BathTemperature, above), want.Temperature, c.tolerance))
			})
			t.Logf("worst difference of a time: %.2g relative", worst)
			outside.Check(t, outside.Row{
				ID: "libraries/baths/" + name, Subject: outside.Libraries, Source: "scipy", Mark: outside.Derived,
				What:    "largest relative difference of any limit of any of the baths of bath_cases.json, " + name + " precision",
				Printed: "0", Within: c.tolerance, Why: c.why,
			}, worst)
		})
	}
}

// TestReferenceMilestones: the same times and the peak, for the cases that only
// stand. On a flat summit the time of the peak is known far less well than its
// temperature: see summitSlack.
func TestReferenceMilestones(t *testing.T) {
	for name, c := range map[string]struct {
		precision    vessel.Precision
		time, kelvin float64
	}{"working": {vessel.Working, 1e-4, 1e-2}, "strict": {vessel.Strict, 1e-7, 1e-6}} {
		t.Run(name, func(t *testing.T) {
			forEachReference(t, func(t *testing.T, r referenceCase, want referenceResult) {
				if len(r.Steps) != 1 || r.Steps[0].Kind != "stand" {
					t.Skip("not standing all the time")
				}
				m, err := r.bath(t, c.precision).Milestones(r.Initial.state(), 0, quantity.Time(r.Steps[0].Duration))
				if err != nil {
					t.Fatal(err)
				}
				compareTime(t, "gel", float64(m.Gel), want.Gel, c.time)
				compareTime(t, "doubled", float64(m.Doubled), want.Doubled, c.time)
				if d := math.Abs(float64(m.Peak) - want.Peak); !(d <= c.kelvin) {
					t.Errorf("peak %.9g K, want %.9g", float64(m.Peak), want.Peak)
				}
				slack := c.time*want.PeakAt + summitSlack(t, r, c.precision, want.PeakAt)
				if d := math.Abs(float64(m.PeakAt) - want.PeakAt); !(d <= slack) {
					t.Errorf("peak at %.9g s, want %.9g ± %.2g", float64(m.PeakAt), want.PeakAt, slack)
				}
			})
		})
	}
}

// wander is by how many times the tolerance of a step the temperature of a quiet
// bath strays from the exact one; TestGrazingPeak bounds it by the same figure.
const wander = 5

// summitSlack is the time, in s, over which the summit of the temperature rises
// by no more than the temperature wanders: √(2·δT/|T”|), with T” from three
// states at strict precision.
func summitSlack(t *testing.T, r referenceCase, p vessel.Precision, peakAt float64) float64 {
	t.Helper()
	const apart = 30.0
	if peakAt < apart {
		return 0 // at the start, where the temperature falls from
	}
	b := r.bath(t, vessel.Strict)
	before, err := b.Advance(r.Initial.state(), 0, quantity.Time(peakAt-apart), vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	at, err := b.Advance(before, quantity.Time(peakAt-apart), quantity.Time(peakAt), vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	after, err := b.Advance(at, quantity.Time(peakAt), quantity.Time(peakAt+apart), vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	bend := math.Abs(float64(before.Temperature-2*at.Temperature+after.Temperature)) / (apart * apart)
	return math.Sqrt(2 * wander * float64(p.Temperature) / bend)
}

// TestReferenceTimeTo: each end point of a pot-life test alone.
func TestReferenceTimeTo(t *testing.T) {
	forEachReference(t, func(t *testing.T, r referenceCase, want referenceResult) {
		if len(r.Steps) != 1 || r.Steps[0].Kind != "stand" {
			t.Skip("not standing all the time")
		}
		b := r.bath(t, vessel.Working)
		start := r.Initial.state()
		for _, c := range []struct {
			what string
			end  vessel.EndPoint
			want *float64
		}{
			{"gel", vessel.EndPoint{Gel: true}, want.Gel},
			{"doubled", vessel.EndPoint{Doubled: true}, want.Doubled},
			{"temperature", vessel.EndPoint{Temperature: quantity.Temperature(r.Limits.Temperature)}, want.Temperature},
			{"viscosity", vessel.EndPoint{Viscosity: quantity.Viscosity(r.Limits.Viscosity)}, want.Viscosity},
		} {
			got, err := b.TimeTo(c.end, start, 0, quantity.Time(r.Steps[0].Duration))
			if err != nil {
				t.Fatal(err)
			}
			if c.end.Viscosity > 0 && start.Viscosity(b.Resin()) >= c.end.Viscosity {
				if got != 0 {
					t.Errorf("the viscosity is passed at the start, yet it takes %g s", float64(got))
				}
				continue
			}
			compareTime(t, c.what, float64(got), c.want, 1e-4)
		}
	})
}
