package learning

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// TestWeightsOfThePart: where the part was weighed better than the resin in the bath, its
// pick-up counts; cups that were weighed teach what stays in them.
func TestWeightsOfThePart(t *testing.T) {
	h := hidden{pickUp: 1.12, reactivity: 0.85, minutes: 1.1}
	w := prepared(t, nil)
	d, carried := h.day(t, w, rand.New(rand.NewPCG(3, 1)))
	fibre := 0.0
	for i := range w.Laid {
		fibre += float64(w.Laid[i].Fibre)
	}
	mixed := 0.0
	for _, e := range d.Events {
		mixed += e.MassG
	}
	part, mandrel, cups := 1000*(fibre+carried)+4100, 4100.0, 0.03*mixed
	fine, tow := 0.1, 1000*fibre
	end := d.Clock(d.Last())
	d.Weighed(d.Last(), session.Weights{PartG: &part, MandrelG: &mandrel, CupsG: &cups, ScaleG: &fine, FibreG: &tow})
	one, err := Observe("weighed", &replay.Journal{Winding: w, Events: d.Events, Started: w.Job.Start, Ended: end})
	if err != nil {
		t.Fatal(err)
	}
	// The scale shows 0.1 g of some 650 g of resin; fibre is given to the gram's tenth too.
	if got := math.Exp(one.PickUp.Y); !(math.Abs(got/1.12-1) <= 1e-3) {
		t.Errorf("by the part's weight the pick-up is %.4f, in truth 1.12", got)
	}
	if one.LeftInCup == nil || !(math.Abs(math.Exp(one.LeftInCup.Y)-0.03) <= 1e-9) {
		t.Errorf("weighed cups teach %+v, in truth 3 %%", one.LeftInCup)
	}
	l := Learn([]*Session{one})
	if !(l.LeftInCup.Value > 0.022 && l.LeftInCup.Value < 0.03) || l.LeftInCup.Sessions != 1 {
		t.Errorf("the lesson of one session of cups is %+v", l.LeftInCup)
	}
}

// TestRefutedBalance: a left-over that the scales of the part refute teaches nothing, however
// finely it was weighed; one that they bear out does.
func TestRefutedBalance(t *testing.T) {
	h := hidden{pickUp: 1.12, reactivity: 1, minutes: 1}
	for _, slip := range []float64{0, 113} {
		w := prepared(t, nil)
		d, carried := h.day(t, w, rand.New(rand.NewPCG(3, 1)))
		fibre := 0.0
		for i := range w.Laid {
			fibre += float64(w.Laid[i].Fibre)
		}
		for i := range d.Events {
			if e := &d.Events[i]; e.Kind == session.LeftOver {
				grams := *e.Grams + slip
				e.Grams = &grams
			}
		}
		// Scales for heavy parts: with steps of 20 g the part says less than the balance.
		part, mandrel, coarse := 1000*(fibre+carried)+4100, 4100.0, 20.0
		end := d.Clock(d.Last())
		d.Weighed(d.Last(), session.Weights{PartG: &part, MandrelG: &mandrel, ScaleG: &coarse})
		one, err := Observe("slip", &replay.Journal{Winding: w, Events: d.Events, Started: w.Job.Start, Ended: end})
		if err != nil {
			t.Fatal(err)
		}
		want := []warning.Warning{}
		if slip > 0 {
			want = append(want, BalanceRefuted{"slip"})
		}
		if got := Refuted([]*Session{one}); !slices.Equal(got, want) {
			t.Errorf("a left-over %g g too high: %v, want %v", slip, got, want)
		}
		// Fibre to 1 % by tex and tow and two weighings of 20/√12 g make 3 % of 670 g of resin.
		if got := math.Exp(one.PickUp.Y); !(math.Abs(got/1.12-1) <= 0.03) {
			t.Errorf("a left-over %g g too high teaches %.3f, in truth 1.12", slip, got)
		}
	}
}
