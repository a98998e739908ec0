package vessel_test

import (
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// slack is what two times of Working precision may differ by without a meaning:
// each is good to 1e-4 of itself.
const slack = 2e-4

func drawResin(t *rapid.T) kinetics.Resin {
	return rapid.SampledFrom([]func() kinetics.Resin{medium, fast, slow}).Draw(t, "resin")()
}

func drawVessel(t *rapid.T, r kinetics.Resin, mass quantity.Mass) vessel.Vessel {
	if rapid.Bool().Draw(t, "cup") {
		return vessel.UsualCup(mass, r.Density)
	}
	return tray()
}

// TestWarmerIsNeverLater: room and resin warmer, or the resin alone, never put off
// gel or the temperature limit.
func TestWarmerIsNeverLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawResin(t)
		mass := quantity.Mass(rapid.Float64Range(0.05, 1.5).Draw(t, "mass"))
		v := drawVessel(t, r, mass)
		celsius := rapid.Float64Range(10, 32).Draw(t, "celsius")
		rise := rapid.Float64Range(0.1, 6).Draw(t, "rise")
		room := celsius
		if rapid.Bool().Draw(t, "room too") {
			room += rise
		}
		for name, end := range map[string]vessel.EndPoint{
			"gel": {Gel: true}, "temperature limit": {Temperature: vessel.UsualBathTemperature},
		} {
			cool := until(t, inRoom(r, v, celsius), fresh(mass, celsius), end)
			warm := until(t, inRoom(r, v, room), fresh(mass, celsius+rise), end)
			if !(warm <= cool*(1+slack)) {
				t.Errorf("%s: %g s from %g °C, %g s from %g K warmer", name, float64(cool), celsius, float64(warm), rise)
			}
		}
	})
}

// byThickening are the usual limits but that of temperature: a bath whose summit
// just passes it may be younger than one that has a little less heat to give,
// stays below and so lives longer. Of thickening alone that cannot be said.
func byThickening(celsius float64) vessel.Limits {
	l := usual(celsius)
	l.BathTemperature = unreachedKelvin
	return l
}

// TestOlderIsNeverYounger: the same bath with more of its cure behind it gels no
// later and thickens no later. The conversions are those of resin that is still
// poured: past α = 0.27, where the rate at one temperature is highest, and in a
// large mass, resin that has less heat left to give can indeed gel later than
// younger resin at the same temperature.
func TestOlderIsNeverYounger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawResin(t)
		mass := quantity.Mass(rapid.Float64Range(0.05, 1.5).Draw(t, "mass"))
		celsius := rapid.Float64Range(12, 32).Draw(t, "celsius")
		b := inRoom(r, drawVessel(t, r, mass), celsius)
		young, old := fresh(mass, celsius), fresh(mass, celsius)
		young.Alpha = rapid.Float64Range(0, 0.06).Draw(t, "alpha")
		old.Alpha = young.Alpha + rapid.Float64Range(0.001, 0.06).Draw(t, "older by")
		if first, second := gelOf(t, b, old), gelOf(t, b, young); !(first <= second*(1+slack)) {
			t.Errorf("gel %g s from α = %g, %g s from α = %g", float64(second), young.Alpha, float64(first), old.Alpha)
		}
		limits := byThickening(celsius)
		first, second := lifeOf(t, b, old, vessel.Tow{}, limits), lifeOf(t, b, young, vessel.Tow{}, limits)
		if !(first.Left <= second.Left*(1+slack)) {
			t.Errorf("life %g s from α = %g, %g s from α = %g", float64(second.Left), young.Alpha, float64(first.Left), old.Alpha)
		}
	})
}

// TestToppingUpNeverRestartsTheClock: whatever the heel's mass and age, fresh resin
// on it lives no longer than the same mass at the same temperature, all fresh.
func TestToppingUpNeverRestartsTheClock(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawResin(t)
		celsius := rapid.Float64Range(18, 30).Draw(t, "celsius")
		b := inRoom(r, tray(), celsius)
		heel := fresh(quantity.Mass(rapid.Float64Range(0.05, 0.7).Draw(t, "heel")), celsius)
		pot := fresh(quantity.Mass(rapid.Float64Range(0.05, 0.5).Draw(t, "pot")), celsius)
		age := quantity.Time(rapid.Float64Range(1, 2*float64(hour)).Draw(t, "age"))
		heel = advanced(t, b, heel, 0, age, vessel.Tow{})
		if heel.Alpha > 0.6*r.Gel {
			t.Skip("no top-up onto a heel as old as that: the bath is changed")
		}
		mixed := vessel.Pour(&r, heel, pot)
		all := vessel.State{Mass: mixed.Mass, Temperature: mixed.Temperature}
		limits := byThickening(celsius)
		topped, anew := lifeOf(t, b, mixed, vessel.Tow{}, limits), lifeOf(t, b, all, vessel.Tow{}, limits)
		if !(topped.Left <= anew.Left*(1+slack)) {
			t.Errorf("topped up it lives %g s, fresh %g s", float64(topped.Left), float64(anew.Left))
		}
		if gel, freshGel := gelOf(t, b, mixed), gelOf(t, b, all); !(gel < freshGel) {
			t.Errorf("topped up it gels after %g s, fresh after %g s", float64(gel), float64(freshGel))
		}
	})
}
