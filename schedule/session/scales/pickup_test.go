package scales_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"potlife/schedule"
	"potlife/schedule/session"
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
func twin(w *schedule.Winding, pickUp float64) (l *log, onPart float64) {
	const mixed = 900
	carried := fibre(w) * target * pickUp
	l = wound(mixed)
	l.leftOver(mixed*(1-0.02) - carried)
	l.say(session.Finish)
	return l, carried * (1 - float64(w.Job.Bleed))
}

// TestPickUpOfTwins: what a day truly carried is found by both ways, with and without
// bleed. The figures are exact, so that only rounding is off.
func TestPickUpOfTwins(t *testing.T) {
	for _, bleed := range []string{"0 %", "6 %"} {
		w := job(t, bleed, "layer")
		for _, truth := range []float64{0.9, 1, 1.12} {
			l, resin := twin(w, truth)
			p := pickUp(t, w, l)
			near(t, "by balance, bleed "+bleed, p.Value, truth, 1e-9)
			if p.Weighed {
				t.Error("nothing was weighed")
			}
			l.weighed(session.Weights{PartG: of(3500 + fibre(w) + resin), MandrelG: of(3500)})
			p = pickUp(t, w, l)
			near(t, "by weight, bleed "+bleed, p.Value, truth, 1e-9)
			if !p.Weighed {
				t.Error("the part was weighed")
			}
			wiped := fibre(w)*target*truth - resin
			l.weighed(session.Weights{RagsG: of(wiped)})
			near(t, "by weight with rags, bleed "+bleed, pickUp(t, w, l).Value, truth, 1e-9)
		}
	}
}

// TestPickUpDoubt: each input has the share that follows by hand (derived): tex within
// 2 % and tow within 1 % of rectangular doubt, the cup's rest known to itself, and for
// the bleed half of it.
func TestPickUpDoubt(t *testing.T) {
	w := job(t, "6 %", "layer")
	l, resin := twin(w, 1)
	p := pickUp(t, w, l)
	resinAtTarget := fibre(w) * target
	for name, want := range map[string]float64{
		"tex": 0.02 / math.Sqrt(3), "tow": 0.01 / math.Sqrt(3), "cups that were poured": 18 / math.Sqrt(3) / resinAtTarget,
		"left over": 1 / math.Sqrt(12) / resinAtTarget, "mixed": 0.1 / math.Sqrt(12) / resinAtTarget,
	} {
		// Central differences over ±u are off by u² relative, 1e-4 for tex.
		near(t, name, share(t, p, name), want, 2e-4*want)
	}
	near(t, "all shares make u", squares(p), p.U*p.U, 1e-9*p.U*p.U)
	l.weighed(session.Weights{PartG: of(fibre(w) + resin)})
	p = pickUp(t, w, l)
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
	all := func(days ...func(l *log)) *log {
		l := begun()
		for _, day := range days {
			day(l)
		}
		return l
	}
	inHand := func(l *log) { l.add(session.Event{Kind: session.Begin, Layer: 1}) }
	for name, row := range map[string]struct {
		l    *log
		says string
	}{
		"nothing mixed":   {all(), "resin mixed"},
		"nothing wound":   {all(func(l *log) { l.fill(300); l.leftOver(300) }), "the fibre is missing"},
		"bath unknown":    {wound(900), "left in the bath"},
		"layer in hand":   {all(func(l *log) { l.fill(300) }, inHand), "end of layer 1"},
		"more than all":   {all(func(l *log) { l.fill(300); l.layer(1); l.leftOver(300) }), "all that was mixed, or more"},
		"lighter":         {all(func(l *log) { l.fill(300); l.layer(1); l.weighed(session.Weights{PartG: of(10)}) }), "lighter than its fibre"},
		"no order at all": {all(inHand), "no resin in the bath"},
	} {
		_, err := scales.PickUpOf(w, row.l.events)
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

func pickUp(t *testing.T, w *schedule.Winding, l *log) *scales.PickUp {
	t.Helper()
	p, err := scales.PickUpOf(w, l.events)
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
