package scales_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

// target is resin for each gram of fibre at 62 % by mass.
const target = 0.38 / 0.62

func fibre(w *schedule.Winding) float64 {
	grams := 0.0
	for _, l := range w.Laid {
		grams += l.Fibre.In("g")
	}
	return grams
}

// twin is a day on which the tow carried pickUp times the target's resin off the bath,
// of which the bleed was wiped off; 2 % of the pot stayed in the cup.
func twin(w *schedule.Winding, pickUp float64) (d *daytest.Day, onPart float64) {
	const mixed = 900
	carried := fibre(w) * target * pickUp
	d = wound(w, mixed)
	d.LeftOver(41, mixed*(1-0.02)-carried)
	d.Finish(42)
	return d, carried * (1 - float64(w.Job.Bleed))
}

// TestPickUpOfTwins: what a day truly carried is found by both ways, with and without
// bleed. The figures are exact, so that only rounding is off.
func TestPickUpOfTwins(t *testing.T) {
	for _, bleed := range []string{"0 %", "6 %"} {
		w := job(t, bleed, "layer")
		for _, truth := range []float64{0.9, 1, 1.12} {
			d, resin := twin(w, truth)
			p := pickUp(t, d)
			near(t, "by balance, bleed "+bleed, p.Value, truth, 1e-9)
			if p.Weighed {
				t.Error("nothing was weighed")
			}
			d.Weighed(43, session.Weights{PartG: of(3500 + fibre(w) + resin), MandrelG: of(3500)})
			p = pickUp(t, d)
			near(t, "by weight, bleed "+bleed, p.Value, truth, 1e-9)
			if !p.Weighed {
				t.Error("the part was weighed")
			}
			wiped := fibre(w)*target*truth - resin
			d.Weighed(43, session.Weights{RagsG: of(wiped)})
			near(t, "by weight with rags, bleed "+bleed, pickUp(t, d).Value, truth, 1e-9)
		}
	}
}

// TestPickUpDoubt: each input has the share that follows by hand (derived): tex within
// 2 % and tow within 1 % of rectangular doubt, the cup's rest known to itself, and for
// the bleed half of it.
func TestPickUpDoubt(t *testing.T) {
	w := job(t, "6 %", "layer")
	d, resin := twin(w, 1)
	p := pickUp(t, d)
	resinAtTarget := fibre(w) * target
	for name, want := range map[string]float64{
		"tex": 0.02 / math.Sqrt(3), "tow": 0.01 / math.Sqrt(3), "cups that were poured": 18 / math.Sqrt(3) / resinAtTarget,
		"left over": 1 / math.Sqrt(12) / resinAtTarget, "mixed": 0.1 / math.Sqrt(12) / resinAtTarget,
	} {
		// Central differences over ±u are off by u² relative, 1e-4 for tex.
		near(t, name, share(t, p, name), want, 2e-4*want)
	}
	near(t, "all shares make u", squares(p), p.U*p.U, 1e-9*p.U*p.U)
	d.Weighed(43, session.Weights{PartG: of(fibre(w) + resin)})
	p = pickUp(t, d)
	near(t, "bleed", share(t, p, "bleed"), 0.03/0.94/math.Sqrt(3), 1e-9)
	near(t, "all shares make u", squares(p), p.U*p.U, 1e-9*p.U*p.U)
	parts := 0.0
	for _, s := range p.Shares {
		parts += s.Part
	}
	near(t, "parts of the variance", parts, 1, 1e-9)
}

// TestNoPickUp: a session that does not tell it says what is missing.
func TestNoPickUp(t *testing.T) {
	w := job(t, "0 %", "layer")
	for name, row := range map[string]struct {
		day  func(d *daytest.Day)
		says string
	}{
		"nothing mixed":   {func(*daytest.Day) {}, "resin mixed"},
		"nothing wound":   {func(d *daytest.Day) { d.Fill(0, 300); d.LeftOver(6, 300) }, "the fibre is missing"},
		"bath unknown":    {func(d *daytest.Day) { *d = *wound(w, 900) }, "left in the bath"},
		"layer in hand":   {func(d *daytest.Day) { d.Fill(0, 300); d.Begin(6, 1) }, "end of layer 1"},
		"more than all":   {func(d *daytest.Day) { d.Fill(0, 300); d.Layer(1, 6, 9); d.LeftOver(10, 300) }, "all that was mixed, or more"},
		"lighter":         {func(d *daytest.Day) { d.Fill(0, 300); d.Layer(1, 6, 9); d.Weighed(10, session.Weights{PartG: of(10)}) }, "lighter than its fibre"},
		"no order at all": {func(d *daytest.Day) { d.Begin(6, 1) }, "no resin in the bath"},
	} {
		d := daytest.New(w)
		row.day(d)
		_, err := scales.PickUpOf(w, d.Events)
		if err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: %v, want %q", name, err, row.says)
		}
		var missing *weighing.Missing
		var impossible *weighing.Impossible
		var refusal *session.Refusal
		if !errors.As(err, &missing) && !errors.As(err, &impossible) && !errors.As(err, &refusal) {
			t.Errorf("%s: %T is none of the errors promised", name, err)
		}
	}
}

func pickUp(t *testing.T, d *daytest.Day) *scales.PickUp {
	t.Helper()
	p, err := scales.PickUpOf(d.W, d.Events)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func share(t *testing.T, p *scales.PickUp, name string) float64 {
	t.Helper()
	for _, s := range p.Shares {
		if s.Name == name {
			return s.U
		}
	}
	t.Errorf("%s has no share: %+v", name, p.Shares)
	return math.NaN()
}

func squares(p *scales.PickUp) float64 {
	sum := 0.0
	for _, s := range p.Shares {
		sum += s.U * s.U
	}
	return sum
}
