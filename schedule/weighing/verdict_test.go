package weighing_test

import (
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/weighing"
)

// TestVerdict: against 62 ± 2 % by mass, w = F/1 kg with u as given. More fibre is
// dry, less is rich; doubt wider than the band cannot tell unless all of it lies
// beyond the band.
func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		fibre, u float64
		want     weighing.Word
	}{
		{0.62, 0.002, weighing.OnTarget},
		{0.639, 0.002, weighing.OnTarget},
		{0.601, 0.002, weighing.OnTarget},
		{0.641, 0.002, weighing.Dry},
		{0.599, 0.002, weighing.Rich},
		{0.62, 0.0099, weighing.OnTarget},
		{0.62, 0.0101, weighing.CannotTell},
		{0.66, 0.0101, weighing.CannotTell},
		{0.70, 0.0101, weighing.Dry},
		{0.50, 0.0101, weighing.Rich},
	} {
		r := weigh(t, weighing.Input{
			Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Within(quantity.Mass(c.fibre), quantity.Mass(c.u)),
			Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, Scale: 1e-6,
		})
		if r.Verdict.Word != c.want || r.Verdict.WeighBetter != "fibre" {
			t.Errorf("%g ± 2·%g is %s, want %s; weigh %s better", c.fibre, c.u, r.Verdict.Word, c.want, r.Verdict.WeighBetter)
		}
		if r.Verdict.Divided {
			t.Errorf("%g: one route is divided", c.fibre)
		}
	}
}

// TestVerdictNamesTheScale: a coarse scale under a light part is what to mend;
// with metres of tow it is the tex.
func TestVerdictNamesTheScale(t *testing.T) {
	in := weighing.Input{
		Part: weighing.Of(quantity.Mass(0.06)), SpoolBefore: weighing.Of(quantity.Mass(1.037)), SpoolAfter: weighing.Of(quantity.Mass(1)),
		Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}, Scale: 0.005,
	}
	if v := weigh(t, in).Verdict; v.Word != weighing.CannotTell || !strings.HasPrefix(v.WeighBetter, "spool") {
		t.Errorf("%s: weigh %s better", v.Word, v.WeighBetter)
	}
	c := carbonTube()
	in = c.withTow(c.scales())
	in.Tolerances.Tex = 0.08
	if v := weigh(t, in).Verdict; v.Word != weighing.CannotTell || v.WeighBetter != "tex" {
		t.Errorf("%s: weigh %s better", v.Word, v.WeighBetter)
	}
}

// TestCost: 1 kg laid with 0.55 fibre against 0.62 by mass: the resin is 450 g,
// the target's is 0.55·0.38/0.62 = 337.1 g, too much by 112.9 g (derived), and
// the pick-up is (0.45/0.55)/(0.38/0.62) = 1.335. Eight plies of 0.2667 kg/m² at
// 1.80 hold 1.1853 mm of fibre; V_f is 0.4490 and 0.5210, so the wall is thicker
// by 1.1853·(1/0.4490 − 1/0.5210) = 0.365 mm.
func TestCost(t *testing.T) {
	in := weighing.Input{
		Part: weighing.Of(quantity.Mass(1)), Fibre: weighing.Of(quantity.Mass(0.55)),
		FibreDensity: weighing.Of(quantity.Density(1800)), ResinDensity: weighing.Of(quantity.Density(1200)),
		Plies: 8, ArealWeight: weighing.Of(quantity.ArealWeight(0.2667)),
		Target: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass},
	}
	r := weigh(t, in)
	near(t, "surplus", r.Surplus.Value.In("g"), 112.9, 0.05)
	near(t, "pick-up", r.PickUp.Value, 1.335, 5e-4)
	near(t, "thicker", r.Thicker.Value.In("mm"), 0.365, 1e-3) // V_f rounded to four digits
	if r.Verdict.Word != weighing.Rich {
		t.Errorf("%s", r.Verdict.Word)
	}
	in.Fibre = weighing.Of(quantity.Mass(0.70))
	r = weigh(t, in)
	if r.Verdict.Word != weighing.Dry || !(r.Surplus.Value < 0) || !(r.Thicker.Value < 0) {
		t.Errorf("%s: %v, %v", r.Verdict.Word, r.Surplus.Value, r.Thicker.Value)
	}
}

// TestWallWithoutPlies: the wall's share of fibre stands in for plies; at the
// same truth both tell the same.
func TestWallWithoutPlies(t *testing.T) {
	c := carbonTube()
	c.voids = 0
	in := c.withWall(c.withSpool(c.scales()))
	in.Target.Value = 0.66
	plies := weigh(t, in).Thicker.Value
	in.ArealWeight.Given = false
	exactly(t, "thicker", float64(weigh(t, in).Thicker.Value), float64(plies))
	if !(plies > 0) {
		t.Errorf("a rich wall is thicker by %v", plies)
	}
}

// TestNoTarget: without one there is no verdict, and nothing against it.
func TestNoTarget(t *testing.T) {
	in := carbonTube().everything()
	in.Target = resins.FibreFraction{}
	if r := weigh(t, in); r.Verdict != nil || r.PickUp != nil || r.Surplus != nil || r.Thicker != nil {
		t.Errorf("%v", r.Verdict)
	}
}

// TestTargetByVolume is judged by mass, by the densities.
func TestTargetByVolume(t *testing.T) {
	in := carbonTube().everything()
	in.Target = resins.FibreFraction{Value: 0.60, Basis: resins.ByVolume}
	near(t, "target", float64(weigh(t, in).Verdict.Target), 0.6923, 5e-5) // facts: carbon, half of the last digit
}
