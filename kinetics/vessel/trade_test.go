package vessel_test

import (
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/outside"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// slow is a slow amine system with the constants of the catalogue's
// epoxy-polyetheramine-ipda.
func slow() kinetics.Resin {
	glass := kinetics.DiBenedetto{Uncured: quantity.Celsius(-40), Cured: quantity.Celsius(95), Lambda: 0.42}
	r := medium()
	r.Name = "slow"
	r.Cure = kinetics.KamalSourour{
		K1: kinetics.Arrhenius{A: 3.533e4, E: 55000}, K2: kinetics.Arrhenius{A: 3.533e5, E: 55000}, M: 1, N: 2,
	}
	r.Glass, r.Vitrification = glass, kinetics.GlassShift{Glass: glass, Shift: kinetics.DefaultShift, C: kinetics.DefaultSharpness}
	r.Viscosity = kinetics.CastroMacosko{
		Flow: kinetics.Flow{At: quantity.Celsius(25), Value: 0.3, Activation: 65500}, Gel: 0.577, A: 1.5, B: 1,
	}
	r.Heat, r.Density, r.Conductivity = 425e3, 1100, 0.19
	return r
}

// stillCup is the usual cup with what the resin's own conduction adds to the way
// out: evenly heated, a long cylinder is on the mean q·R/(4k) warmer than its
// wall, so the coefficient h becomes h/(1 + Bi/4), Bi = h·R/k (derived from the
// parabolic profile). A bath is stirred; a cup is not.
func stillCup(r kinetics.Resin, mass quantity.Mass) vessel.Vessel {
	v := vessel.UsualCup(mass, r.Density)
	radius := float64(v.Depth(mass, r.Density)) / 2
	biot := float64(v.WallLoss) * radius / float64(r.Conductivity)
	return v.LossesTimes(1 / (1 + biot/4))
}

// TestLabelCups: 100 g in a cup gels in 20 to 30 min (fast) and 200 to 270 min
// (slow) at 25 °C. Both figures from memory; the prefactors were set by them.
func TestLabelCups(t *testing.T) {
	for _, c := range []struct {
		resin     kinetics.Resin
		low, high quantity.Time
	}{{fast(), 20 * minute, 30 * minute}, {slow(), 200 * minute, 270 * minute}} {
		b := inRoom(c.resin, stillCup(c.resin, 0.1), 25)
		gel := gelOf(t, b, fresh(0.1, 25))
		t.Logf("%s: %.1f min", c.resin.Name, float64(gel/minute))
		if !(gel >= c.low && gel <= c.high) {
			t.Errorf("%s: 100 g gels in %.1f min, want %g to %g", c.resin.Name, float64(gel/minute), float64(c.low/minute), float64(c.high/minute))
		}
	}
}

// TestHundredGramsInAPotGetHot: they can pass 200 °C, and a thin film of the same
// mix lives 5 to 8 times longer than the pot (both common practice). The pot
// lives until 40 °C, the end of usable time by the same practice; a film warms
// no more and lives until gel.
func TestHundredGramsInAPotGetHot(t *testing.T) {
	r := fast()
	pot := inRoom(r, stillCup(r, 0.1), 25)
	m, err := pot.Milestones(fresh(0.1, 25), 0, 8*hour)
	if err != nil {
		t.Fatal(err)
	}
	if !(m.Peak > quantity.Celsius(200)) {
		t.Errorf("peak %g °C, want above 200", m.Peak.Celsius())
	}
	outside.Check(t, outside.Row{
		ID: "trade/hot-pot", Subject: outside.Trade, Mark: outside.CommonPractice,
		What: "peak of 100 g of the fast system in a cup, 25 °C", Printed: "200", To: outside.OrMore, Unit: "°C",
	}, m.Peak.Celsius())
	inPot := until(t, pot, fresh(0.1, 25), vessel.EndPoint{Temperature: vessel.UsualBathTemperature})
	film := inRoom(r, vessel.Tray(1, 1, 10, 6), 25) // half a millimetre deep
	ratio := float64(gelOf(t, film, fresh(0.565, 25)) / inPot)
	t.Logf("the pot lives %.1f min, the film %.2f times as long", float64(inPot/minute), ratio)
	outside.Check(t, outside.Row{
		ID: "trade/film-and-pot", Subject: outside.Trade, Mark: outside.CommonPractice,
		What: "a film of the fast system lives longer than 100 g of it in a pot, times", Printed: "5", To: "8",
	}, ratio)
}

// TestSelfHeatingSharpensTemperature: in the film times shorten by 1.9 to 2.3 for
// 10 °C (common practice: halve); a mass that warms itself shortens by more,
// since it also comes nearer to runaway.
func TestSelfHeatingSharpensTemperature(t *testing.T) {
	cold := medium()
	cold.Heat = 0
	shortens := func(r kinetics.Resin, v vessel.Vessel, mass quantity.Mass) float64 {
		return float64(gelOf(t, inRoom(r, v, 20), fresh(mass, 20)) / gelOf(t, inRoom(r, v, 30), fresh(mass, 30)))
	}
	isothermal := shortens(cold, tray(), 0.4)
	if !(isothermal >= 1.9 && isothermal <= 2.3) {
		t.Errorf("isothermal times shorten by %.2f for 10 °C, want 1.9 to 2.3", isothermal)
	}
	if mass := shortens(medium(), tray(), 0.4); !(mass > isothermal) {
		t.Errorf("a mass of resin shortens by %.2f, the film by %.2f, want the mass to shorten by more", mass, isothermal)
	}
}

// TestALittleWarmthCanHelp: a bath that ends by viscosity lives longer when a
// little warmer, since warm resin is thin; one that ends by its own heat does
// not.
func TestALittleWarmthCanHelp(t *testing.T) {
	life := func(mass quantity.Mass, celsius float64) vessel.Life {
		return lifeOf(t, inRoom(medium(), tray(), celsius), fresh(mass, celsius), vessel.Tow{}, usual(celsius))
	}
	cool, mild := life(0.2, 17), life(0.2, 20)
	if cool.EndsBy != vessel.BathViscosity || mild.EndsBy != vessel.BathViscosity || !(mild.Left > cool.Left) {
		t.Errorf("200 g at 17 °C: %+v, at 20 °C: %+v, want the warmer to live longer", cool, mild)
	}
	warm, hot := life(0.8, 25), life(0.8, 28)
	if warm.EndsBy != vessel.BathTemperature || hot.EndsBy != vessel.BathTemperature || !(hot.Left < warm.Left) {
		t.Errorf("800 g at 25 °C: %+v, at 28 °C: %+v, want the warmer to end sooner", warm, hot)
	}
}

// TestMassAndShape: twice the mass in the same cup lives shorter; in a tray twice
// as wide, as deep as before, about as long (the side walls' share of the loss
// is what differs; they are a fifth of a tray's loss and less).
func TestMassAndShape(t *testing.T) {
	r := fast()
	cup := vessel.Cup(0.09, vessel.UsualCupLoss, vessel.UsualCupLoss)
	one, two := gelOf(t, inRoom(r, cup, 23), fresh(0.15, 23)), gelOf(t, inRoom(r, cup, 23), fresh(0.3, 23))
	if !(two < one) {
		t.Errorf("300 g in the cup gel after %g s, 150 g after %g s, want the larger mass first", float64(two), float64(one))
	}
	narrow := gelOf(t, inRoom(r, tray(), 23), fresh(0.4, 23))
	wide := gelOf(t, inRoom(r, vessel.Tray(0.3, 0.24, vessel.UsualTraySurfaceLoss, vessel.UsualTrayWallLoss), 23), fresh(0.8, 23))
	near(t, "gel in a tray twice as wide", float64(wide), float64(narrow), 0.1)
}
