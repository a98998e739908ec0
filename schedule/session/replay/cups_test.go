package replay

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

// TestACupEndsByItsHottestPlace: with no doubt left all worlds are the nominal one; a pot
// of 400 g then lasts in its cup as long as a still cup on 13 cells does, counted from when
// it was mixed, within the 1 % of the coarse grid, and ends well before a stirred one. Now,
// it has the hottest temperature and the most cured resin of that cup: 0.1 K and 1e-3 for
// five cells against 13.
func TestACupEndsByItsHottestPlace(t *testing.T) {
	w := daytest.Prepared(t)
	w.Task.Spread = ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}
	d := newDay(w)
	d.Mixed(10, 400)
	const minute = 60
	s := d.script(t, 40)
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	got, err := p.Cup(&s.Standing()[0], 86400)
	if err != nil {
		t.Fatal(err)
	}
	task := w.Task
	precision := still.Working
	precision.Cells = 13
	pot, err := still.New(task.Resin, still.CupOf(task.Pots.Cup, 0.4), task.Room, task.Room, precision)
	if err != nil {
		t.Fatal(err)
	}
	fresh := vessel.State{Mass: 0.4, Temperature: quantity.Celsius(21)}
	want, err := pot.Life(fresh, 10*minute, task.Limits, 86400)
	if err != nil {
		t.Fatal(err)
	}
	left := want.Left - 30*minute
	if d := float64(got.Sure() - left); !(math.Abs(d) <= 0.01*float64(want.Left)) || got.EndsBy[0] != want.EndsBy {
		t.Errorf("%v left by %s, the still cup has %v by %s", got.Sure(), got.EndsBy[0], left, want.EndsBy)
	}
	bath := vessel.New(task.Resin, task.Pots.Cup, task.Room, task.Room, vessel.Working)
	stirred, err := bath.Life(fresh, 10*minute, vessel.Tow{}, 0, task.Limits, 86400)
	if err != nil || !(want.Left < 0.9*stirred.Left) {
		t.Errorf("stirred it lasts %v, still %v; %v", stirred.Left, want.Left, err)
	}
	start, _ := pot.Uniform(fresh)
	profile, err := pot.Advance(start, 10*minute, 40*minute)
	if err != nil {
		t.Fatal(err)
	}
	now := got.States[0]
	if !(math.Abs(float64(now.Temperature-profile.Hottest().Temperature)) <= 0.1 && math.Abs(now.Alpha-profile.Foremost().Alpha) <= 1e-3) || now.Mass != 0.4 {
		t.Errorf("now %+v, the still cup %+v", now, profile.Hottest())
	}
	// Long past its end it has gelled and nothing is left, which is usable for nothing.
	p, err = d.script(t, 300).Play()
	if err != nil {
		t.Fatal(err)
	}
	if got, err = p.Cup(&s.Standing()[0], 86400); err != nil || got.Sure() != 0 || !math.IsInf(float64(got.Viscosity(0)), 1) {
		t.Errorf("%v left after five hours, %v, %v", got.Sure(), got.Viscosity(0), err)
	}
	if usable, err := p.Usable(); err != nil || len(usable) != 0 {
		t.Errorf("usable: %v, %v", usable, err)
	}
}

// TestManyPotsAreFollowedByFew: up to 30 pots each has forty worlds, of 200 each has eight, whose worst is at most
// a tenth too careful and no more than a hundredth too bold.
func TestManyPotsAreFollowedByFew(t *testing.T) {
	for pots, want := range map[int]int{1: cupWorlds, 30: cupWorlds, 60: 20, 200: fewestCupWorlds} {
		d := newDay(daytest.Prepared(t))
		for k := range pots {
			d.Mixed(0.1*float64(k), 200)
		}
		p, err := d.script(t, 25).PlayWith(60, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.cupWorlds(); got != want {
			t.Errorf("%d pots are followed by %d worlds each, want %d", pots, got, want)
		}
		if pots > 1 {
			continue
		}
		pot := p.Script.Standing()[0]
		many, err := p.cup(&pot, lifeHorizon, cupWorlds)
		if err != nil {
			t.Fatal(err)
		}
		few, err := p.cup(&pot, lifeHorizon, fewestCupWorlds)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := few.Sure(), many.Sure(); !(a >= 0.9*b && a <= 1.01*b) {
			t.Errorf("a pot lasts %.0f s by few worlds, %.0f s by many", a, b)
		}
	}
}
