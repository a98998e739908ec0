package advice

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// sampled is how far a share of the worlds may be from the level of an answer. The standard
// deviation of a random sample is 0.03 for 9 in 10 of the 100 trials and 0.025 for half of the
// 400 members; theirs are points of a lattice, which are more even.
const sampled = 0.03

// shareOf is the share of the worlds of a day for which something holds.
func shareOf(t *testing.T, p *replay.Played, holds func(a *replay.Ahead) bool) float64 {
	t.Helper()
	share, total := 0.0, 0.0
	for i, w := range p.Worlds {
		weight := p.Cloud.Members[i].Weight
		total += weight
		if holds(w.Ahead()) {
			share += weight
		}
	}
	return share / total
}

// TestMinutesLeftAreOf9In10: counted one by one, half of the baths last as long as the
// answer for 1 in 2, and 9 in 10 as long as the answer for 9 in 10, if the tow stops now and
// if it goes on to the end of its layer.
func TestMinutesLeftAreOf9In10(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 415.9)
	d.Begin(6, 1)
	const at = 16.0
	p := d.play(t, at, 0)
	a, err := Now(p)
	if err != nil {
		t.Fatal(err)
	}
	if !a.Running {
		t.Fatal(a.say())
	}
	inHand := trial(t, d, at).layerInHand()
	stopped := func(a *replay.Ahead) quantity.Time { return must(t)(a.Left(horizon)) }
	winding := func(a *replay.Ahead) quantity.Time { return must(t)(a.LeftWinding(inHand, horizon)) }
	for _, c := range []struct {
		what    string
		left    func(a *replay.Ahead) quantity.Time
		answer  quantity.Time
		outlive float64
	}{
		{"stopped, 1 in 2", stopped, a.Stopped, 0.5},
		{"stopped, 9 in 10", stopped, a.StoppedSure, 0.9},
		{"winding, 1 in 2", winding, a.Left, 0.5},
		{"winding, 9 in 10", winding, a.LeftSure, 0.9},
	} {
		got := shareOf(t, p, func(a *replay.Ahead) bool { return c.left(a) >= c.answer })
		t.Logf("%s: %.4f", c.what, got)
		if !(math.Abs(got-c.outlive) <= sampled) {
			t.Errorf("%s: %.3f of the baths last %.1f min", c.what, got, c.answer/60)
		}
	}
}

// must is the time that a bath has left.
func must(t *testing.T) func(quantity.Time, vessel.Limit, error) quantity.Time {
	return func(left quantity.Time, _ vessel.Limit, err error) quantity.Time {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return left
	}
}

// TestLayerLeavesItsReserve: if the crew waits as long as the answer allows and winds the
// next layer then, 9 in 10 baths still have their reserve, and no more than that.
func TestLayerLeavesItsReserve(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(0, 415.9)
	d.Layer(1, 6, 36)
	const at = 37.0
	p := d.play(t, at, 0)
	a, err := Now(p)
	if err != nil {
		t.Fatal(err)
	}
	if a.Rule != Fits {
		t.Fatal(a.say())
	}
	next := trial(t, d, at).goals[0]
	got := shareOf(t, p, func(ahead *replay.Ahead) bool {
		if err := ahead.Stand(a.ActBefore); err != nil {
			t.Fatal(err)
		}
		if err := ahead.Wind(next); err != nil {
			t.Fatal(err)
		}
		reserve, err := ahead.Reserve()
		if err != nil {
			t.Fatal(err)
		}
		return must(t)(ahead.Left(horizon)) >= reserve
	})
	t.Logf("%.4f of the baths have their reserve", got)
	if !(math.Abs(got-batches.EnoughMembers) <= sampled) {
		t.Errorf("%.3f of the baths have their reserve: %s", got, a.say())
	}
}
