package weighing_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/weighing"
)

// TestTubeIsFoundAgain: from readings without error every result is the truth
// that they came from, and no two routes disagree.
func TestTubeIsFoundAgain(t *testing.T) {
	c := carbonTube()
	r := weigh(t, c.everything())
	part := c.laid() - c.trimmings
	exactly(t, "by mass", float64(r.ByMass.Value), c.byMass)
	exactly(t, "fibre", float64(r.Fibre.Value), c.byMass*part)
	exactly(t, "resin", float64(r.Resin.Value), (1-c.byMass)*part)
	exactly(t, "fibre laid", float64(r.FibreLaid.Value), c.fibre)
	exactly(t, "resin laid", float64(r.ResinLaid.Value), c.laid()-c.fibre)
	exactly(t, "density", float64(r.Density.Value), c.density())
	exactly(t, "voids", float64(r.Voids.Value), c.voids)
	exactly(t, "all volumes", float64(r.FibreVolume.Value+r.ResinVolume.Value+r.Voids.Value), 1)
	exactly(t, "unaccounted", float64(r.Unaccounted.Value), c.lost)
	exactly(t, "pick-up", r.PickUp.Value, 1)
	exactly(t, "surplus", float64(r.Surplus.Value), 0)
	exactly(t, "thicker", float64(r.Thicker.Value), 0)
	if r.From != weighing.Scales || len(r.Routes) != 4 || len(r.Disagreements) != 0 || len(r.Warnings) != 0 {
		t.Errorf("from %s, routes %v, disagreements %v, warnings %v", r.From, r.Routes, r.Disagreements, r.Warnings)
	}
	for _, route := range r.Routes {
		exactly(t, string(route.Route), float64(route.ByMass.Value), c.byMass)
	}
}

// TestFractionsOfFacts: carbon 1.80 in epoxy 1.20 at V_f 0.60 is w_f 0.6923,
// E-glass 2.54 is 0.7605, and E-glass 70 % by mass is V_f 0.5243 (derived); half
// of the last digit printed.
func TestFractionsOfFacts(t *testing.T) {
	for _, c := range []struct{ fibre, byMass, byVolume float64 }{{1800, 0.6923, 0.60}, {2540, 0.7605, 0.60}, {2540, 0.70, 0.5243}} {
		r := weigh(t, weighing.Input{
			Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Of(quantity.Mass(c.byMass)),
			FibreDensity: weighing.Of(quantity.Density(c.fibre)), ResinDensity: weighing.Of(quantity.Density(1200)),
		})
		near(t, "by volume", float64(r.ByVolume.Value), c.byVolume, 7e-5) // w_f is itself rounded: 5e-5 of it and of V_f
	}
}

// TestEveryRouteAlone: coupon and wall answer alone, shares only; with the
// fibre's mass the coupon also tells what was laid.
func TestEveryRouteAlone(t *testing.T) {
	c := carbonTube()
	for _, only := range []struct {
		in    weighing.Input
		from  weighing.Route
		grams bool
	}{
		{c.withCoupon(weighing.Input{}), weighing.Coupon, false},
		{c.withWall(c.withWater(weighing.Input{FibreDensity: weighing.Of(quantity.Density(1800)), ResinDensity: weighing.Of(quantity.Density(1200))})), weighing.Thickness, false},
		{c.withCoupon(c.withSpool(weighing.Input{})), weighing.Coupon, true},
		{c.withSpool(c.scales()), weighing.Scales, true},
		{c.withTow(c.scales()), weighing.Scales, true},
	} {
		r := weigh(t, only.in)
		exactly(t, "by mass", float64(r.ByMass.Value), c.byMass)
		if r.From != only.from || (r.Fibre != nil) != only.grams {
			t.Errorf("from %s with fibre %v, want %s", r.From, r.Fibre, only.from)
		}
		if only.grams {
			exactly(t, "resin laid", float64(r.ResinLaid.Value), c.laid()-c.fibre)
		}
	}
}

// TestScaleUncertainty: a scale in steps of 1 g is u = 1/√12 g, a part less its
// mandrel √2 of it (JCGM 100, 4.3.7, memory), and w = F/P carries them as the
// quotient's derivatives say, here by hand.
func TestScaleUncertainty(t *testing.T) {
	r := weigh(t, weighing.Input{
		Part: weighing.Of(quantity.Mass(4)), Mandrel: weighing.Of(quantity.Mass(3)),
		SpoolBefore: weighing.Of(quantity.Mass(2)), SpoolAfter: weighing.Of(quantity.Mass(1.4)), Scale: 0.001,
	})
	difference := math.Sqrt2 * 0.001 / math.Sqrt(12)
	exactly(t, "fibre", float64(r.FibreLaid.U), difference)
	exactly(t, "resin", float64(r.ResinLaid.U), math.Sqrt2*difference)
	// The second derivative adds 1e-6 of it.
	near(t, "by mass", float64(r.ByMass.U), difference*math.Sqrt(1+0.6*0.6), 1e-9)
}

// TestTexUncertainty: tex ±2 % and metres ±1 % (rectangular) make u of the fibre
// √(0.02² + 0.01²)/√3 of it, and the result says what was assumed.
func TestTexUncertainty(t *testing.T) {
	c := carbonTube()
	r := weigh(t, c.withTow(c.scales()))
	exactly(t, "fibre", float64(r.FibreLaid.U), c.fibre*math.Hypot(0.02, 0.01)/math.Sqrt(3))
	if r.ByMass.Shares[0].Name != "tex" {
		t.Errorf("most of the doubt is from %v", r.ByMass.Shares[0])
	}
	want := []warning.Warning{
		weighing.BandAssumed{Band: 0.02},
		weighing.TexToleranceAssumed{Within: 0.02},
		weighing.TowToleranceAssumed{Within: 0.01},
		weighing.FibreDensityToleranceAssumed{Within: 0.01},
		weighing.ResinDensityToleranceAssumed{Within: 0.01},
		weighing.TrimmingsAssumedAlike{},
	}
	if !slices.Equal(r.Assumed, want) {
		t.Errorf("assumed %+v, want %+v", r.Assumed, want)
	}
}

// TestOwnUncertaintyWins: an uncertainty given with a value replaces the scale's.
func TestOwnUncertaintyWins(t *testing.T) {
	r := weigh(t, weighing.Input{Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Within(quantity.Mass(0.6), 0.004)})
	exactly(t, "fibre", float64(r.FibreLaid.U), 0.004)
}

// TestMeanOfFibre: two estimates that agree are weighed by their variances; the
// mean is less uncertain than either and lies between.
func TestMeanOfFibre(t *testing.T) {
	in := weighing.Input{
		Part:  weighing.Of(quantity.Mass(1.3)),
		Fibre: weighing.Within(quantity.Mass(0.80), 0.006), SpoolBefore: weighing.Within(quantity.Mass(2.41), 0.003), SpoolAfter: weighing.Of(quantity.Mass(1.6)),
		Scale: 1e-9,
	}
	r := weigh(t, in)
	// Weights 1/36 and 1/9: a fifth of 800 g and four fifths of 810 g.
	near(t, "mean", float64(r.FibreLaid.Value), 0.808, 1e-9)
	near(t, "uncertainty", float64(r.FibreLaid.U), math.Sqrt(1/(1/0.006/0.006+1/0.003/0.003)), 1e-9)
	if len(r.Disagreements) != 0 {
		t.Errorf("%v", r.Disagreements)
	}
}

// TestMeanOfFibreThatDisagrees: two estimates far apart beyond their doubt count
// the same, and their mean is uncertain by half of what lies between them, since
// for two (6) is τ² = (d² − u1² − u2²)/2 (algebra).
func TestMeanOfFibreThatDisagrees(t *testing.T) {
	r := weigh(t, weighing.Input{
		Part:  weighing.Of(quantity.Mass(1.3)),
		Fibre: weighing.Within(quantity.Mass(0.80), 0.001), SpoolBefore: weighing.Within(quantity.Mass(2.45), 0.001), SpoolAfter: weighing.Of(quantity.Mass(1.6)),
		Scale: 1e-9,
	})
	near(t, "mean", float64(r.FibreLaid.Value), 0.825, 1e-9)
	near(t, "uncertainty", float64(r.FibreLaid.U), 0.025, 1e-9)
	if len(r.Disagreements) != 1 {
		t.Errorf("%v", r.Disagreements)
	}
}

// TestScatterAsPublished: for three estimates (6) is the published formula, Q less
// its degrees of freedom over S1 − S2/S1, written here as in the paper (memory).
func TestScatterAsPublished(t *testing.T) {
	mass, u := []float64{0.80, 0.8448, 0.77}, []float64{0.004, 0.8448 * math.Hypot(0.02, 0.01) / math.Sqrt(3), 0.006}
	s1, s2, mean, q := 0.0, 0.0, 0.0, 0.0
	for i := range mass {
		w := 1 / (u[i] * u[i])
		s1, s2, mean = s1+w, s2+w*w, mean+w*mass[i]
	}
	mean /= s1
	for i := range mass {
		q += (mass[i] - mean) * (mass[i] - mean) / (u[i] * u[i])
	}
	tau2 := (q - 2) / (s1 - s2/s1)
	sum, want := 0.0, 0.0
	for i := range mass {
		sum += 1 / (u[i]*u[i] + tau2)
		want += mass[i] / (u[i]*u[i] + tau2)
	}
	r := weigh(t, weighing.Input{
		Part: weighing.Of(quantity.Mass(1.3)), Fibre: weighing.Within(quantity.Mass(mass[0]), quantity.Mass(u[0])),
		Tow: weighing.Of(quantity.Length(264)), Tex: weighing.Of(quantity.LinearDensity(800e-6)), Tows: 4,
		SpoolBefore: weighing.Within(quantity.Mass(1.77), quantity.Mass(u[2])), SpoolAfter: weighing.Within(quantity.Mass(1), 1e-12),
	})
	near(t, "mean", float64(r.FibreLaid.Value), want/sum, 1e-9)
	near(t, "uncertainty", float64(r.FibreLaid.U), 1/math.Sqrt(sum), 1e-9)
}

// TestRoundTripThroughWeigh: by mass from scales, by volume, and back, 1e-12.
func TestRoundTripThroughWeigh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0.3, 0.9).Draw(t, "w")
		fibre := quantity.Density(rapid.Float64Range(1400, 2700).Draw(t, "fibre"))
		r, err := weighing.Weigh(weighing.Input{
			Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Of(quantity.Mass(w)),
			FibreDensity: weighing.Of(fibre), ResinDensity: weighing.Of(quantity.Density(1150)),
		})
		if err != nil {
			t.Fatal(err)
		}
		back := resins.FibreFraction{Value: r.ByVolume.Value, Basis: resins.ByVolume}.OfMass(fibre, 1150)
		if !(math.Abs(float64(back)-w) <= 1e-12) {
			t.Errorf("%v comes back as %v", w, back)
		}
	})
}

// TestMassIsConserved: whatever the readings, resin mixed is resin on the part,
// found elsewhere and unaccounted for, and fibre and resin are the part.
func TestMassIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := carbonTube()
		c.fibre = rapid.Float64Range(0.05, 20).Draw(t, "fibre")
		c.byMass = rapid.Float64Range(0.4, 0.85).Draw(t, "w")
		c.lost = rapid.Float64Range(0, 0.2).Draw(t, "lost")
		in := c.withTow(c.scales())
		r, err := weighing.Weigh(in)
		if err != nil {
			t.Fatal(err)
		}
		resin := r.ResinLaid.Value + in.LeftOver.Value + in.Cups.Value + in.Rags.Value + in.Drips.Value + r.Unaccounted.Value
		part := in.Part.Value - in.Mandrel.Value
		if !(math.Abs(float64(resin-in.Mixed.Value)) <= 1e-12*20) || !(math.Abs(float64(r.Fibre.Value+r.Resin.Value-part)) <= 1e-12*40) {
			t.Errorf("mixed %v found %v; part %v is %v and %v", in.Mixed.Value, resin, part, r.Fibre.Value, r.Resin.Value)
		}
	})
}
