package vessel_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	_ "potlife/kinetics/testrun" // fixes rapid's seed
	"potlife/kinetics/vessel"
)

// drawState draws what may stand in a bath before gel.
func drawState(t *rapid.T, name string) vessel.State {
	return vessel.State{
		Mass:        quantity.Mass(rapid.Float64Range(0.01, 2).Draw(t, name+" mass")),
		Temperature: quantity.Celsius(rapid.Float64Range(5, 60).Draw(t, name+" temperature")),
		Alpha:       rapid.Float64Range(0, 0.4).Draw(t, name+" alpha"),
		Phi:         rapid.Float64Range(0, 4).Draw(t, name+" phi"),
	}
}

// same tells that two numbers are the same but for rounding.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(a)) }

// TestPourConserves: mass, what has reacted, the growth integral and heat.
func TestPourConserves(t *testing.T) {
	r := medium()
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawState(t, "heel"), drawState(t, "fresh")
		mixed := vessel.Pour(&r, a, b)
		sum := func(of func(vessel.State) float64) (parts, whole float64) {
			return float64(a.Mass)*of(a) + float64(b.Mass)*of(b), float64(mixed.Mass) * of(mixed)
		}
		for name, of := range map[string]func(vessel.State) float64{
			"mass":  func(vessel.State) float64 { return 1 },
			"alpha": func(s vessel.State) float64 { return s.Alpha },
			"phi":   func(s vessel.State) float64 { return s.Phi },
			"heat":  func(s vessel.State) float64 { return float64(s.Temperature) },
		} {
			if parts, whole := sum(of); !same(parts, whole) {
				t.Errorf("%s: %.15g in the parts, %.15g in the whole", name, parts, whole)
			}
		}
	})
}

// TestPourViscosity: the larger of the law at the mean age and the log-mass mean
// of both parts, at the common temperature.
func TestPourViscosity(t *testing.T) {
	dual := medium()
	dual.Viscosity = kinetics.DualArrhenius{
		Flow: kinetics.Flow{At: 298.15, Value: 0.6, Activation: 70000}, Growth: kinetics.Arrhenius{A: 1e4, E: 45000},
	}
	for name, r := range map[string]kinetics.Resin{"power law": medium(), "dual-arrhenius": dual} {
		rapid.Check(t, func(t *rapid.T) {
			a, b := drawState(t, "heel"), drawState(t, "fresh")
			a.LogExcess = rapid.Float64Range(0, 0.5).Draw(t, "excess")
			mixed := vessel.Pour(&r, a, b)
			part := func(s vessel.State) float64 {
				s.Temperature = mixed.Temperature
				return float64(s.Mass) * s.LogViscosity(&r)
			}
			logMean := (part(a) + part(b)) / float64(mixed.Mass)
			law := r.LogViscosity(mixed.Alpha, mixed.Phi, float64(mixed.Temperature))
			if got := mixed.LogViscosity(&r); !same(got, math.Max(logMean, law)) {
				t.Errorf("%s: ln η %.12g, want the larger of %.12g and %.12g", name, got, logMean, law)
			}
			if !(mixed.LogExcess >= 0) {
				t.Errorf("%s: excess %g, want none below 0", name, mixed.LogExcess)
			}
		})
	}
}

// TestAgedHeelReadsThickerThanItsMean: ln η is convex in α, so an aged heel under
// fresh resin has an excess, and resin of one age has none.
func TestAgedHeelReadsThickerThanItsMean(t *testing.T) {
	r := medium()
	heel, pot := fresh(0.3, 25), fresh(0.3, 25)
	heel.Alpha = 0.35
	if mixed := vessel.Pour(&r, heel, pot); !(mixed.LogExcess > 0.1) {
		t.Errorf("ln excess %g for a heel at α = 0.35, want it to show", mixed.LogExcess)
	}
	if mixed := vessel.Pour(&r, heel, heel); !(mixed.LogExcess <= 1e-12) {
		t.Errorf("ln excess %g for two equal parts, want none", mixed.LogExcess)
	}
}

// TestExcessStaysUntilTheNextChange: it is a factor on the viscosity while the
// bath ages, and a limit sees it.
func TestExcessStaysUntilTheNextChange(t *testing.T) {
	b := inRoom(medium(), tray(), 23)
	s := fresh(0.5, 23)
	s.LogExcess = 0.2
	later := advanced(t, b, s, 0, 30*minute, vessel.Tow{})
	if later.LogExcess != 0.2 {
		t.Errorf("excess %g after half an hour, want 0.2", later.LogExcess)
	}
	s.LogExcess = 0
	plain := advanced(t, b, s, 0, 30*minute, vessel.Tow{})
	near(t, "η", float64(later.Viscosity(b.Resin())), math.Exp(0.2)*float64(plain.Viscosity(b.Resin())), 1e-12)
	s.LogExcess = 0.2
	thick, thin := until(t, b, s, vessel.EndPoint{Viscosity: 1.5}), until(t, b, fresh(0.5, 23), vessel.EndPoint{Viscosity: 1.5})
	if !(thick < thin) {
		t.Errorf("to 1500 mPa·s %g s with the excess, %g s without", float64(thick), float64(thin))
	}
}

func TestPourOntoNothing(t *testing.T) {
	r := medium()
	pot := fresh(0.3, 25)
	pot.Alpha, pot.LogExcess, pot.Stuck = 0.02, 0.1, 0.02
	if got := vessel.Pour(&r, vessel.State{Temperature: 300, Alpha: 0.5, Stuck: 0.5, Used: 600}, pot); got != pot {
		t.Errorf("onto nothing: %+v, want %+v", got, pot)
	}
	got := vessel.Pour(&r, pot, vessel.State{Temperature: 300})
	if !same(got.LogExcess, pot.LogExcess) {
		t.Errorf("nothing onto it: excess %g, want it unchanged, %g", got.LogExcess, pot.LogExcess)
	}
	if got.LogExcess = pot.LogExcess; got != pot {
		t.Errorf("nothing onto it: %+v, want it unchanged, %+v", got, pot)
	}
}

// TestOrderOfPours does not matter for what is in the bath.
func TestOrderOfPours(t *testing.T) {
	r := medium()
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawState(t, "first"), drawState(t, "second"), drawState(t, "third")
		one := vessel.Pour(&r, vessel.Pour(&r, a, b), c)
		other := vessel.Pour(&r, vessel.Pour(&r, c, a), b)
		if !same(one.Alpha, other.Alpha) || !same(one.Phi, other.Phi) ||
			!same(float64(one.Temperature), float64(other.Temperature)) || !same(float64(one.Mass), float64(other.Mass)) {
			t.Errorf("%+v and %+v", one, other)
		}
	})
}
