package replay

import (
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

// TestPeakIsOfOneInTen: a pot and a bath get hotter than the peak that is printed in 8.5 to 11.5 of 100
// worlds, which is three members of a lattice of 240 either way. So it is where rates are not known
// well, and where losses are all that is not. Above 200 °C, where nothing is printed but that, contours
// bend: there fewer may get hotter.
func TestPeakIsOfOneInTen(t *testing.T) {
	const n = 240
	for _, spread := range []ensemble.Spread{{Time: 1.6, Viscosity: 1.3, Loss: 1.1}, {Time: 1.1, Viscosity: 1.5, Loss: 1.6}} {
		w := daytest.Prepared(t)
		w.Task.Spread = spread
		d := newDay(w)
		d.Mixed(10, 150)
		d.Fill(0, 300)
		s := d.script(t, 20)
		p, err := s.PlayWith(n, 1)
		if err != nil {
			t.Fatal(err)
		}
		pot := &s.Standing()[0]
		cup, err := p.Cup(pot, 86400)
		if err != nil {
			t.Fatal(err)
		}
		never := quantity.Celsius(400)
		inCup := cup.Resin()
		inBath, err := p.BathNow()
		if err != nil {
			t.Fatal(err)
		}
		if err := p.PotAhead(&inCup, pot, cup, never); err != nil {
			t.Fatal(err)
		}
		if err := p.BathAhead(&inBath, never); err != nil {
			t.Fatal(err)
		}
		hotterCup, hotterBath := 0, 0
		for _, world := range p.Worlds {
			body, err := world.stillCup(pot)
			if err != nil {
				t.Fatal(err)
			}
			ahead, err := body.Milestones(vessel.State{Mass: pot.Mass(), Temperature: world.mixedAt(pot)}, pot.MixedAt, lifeHorizon)
			if err != nil {
				t.Fatal(err)
			}
			if ahead.Peak > inCup.Peak {
				hotterCup++
			}
			lies, from := world.lying()
			if ahead, err = world.stand.Milestones(lies, from, s.Now-from+lifeHorizon); err != nil {
				t.Fatal(err)
			}
			if ahead.Peak > inBath.Peak {
				hotterBath++
			}
		}
		for _, in := range []struct {
			what   string
			hotter int
			peak   quantity.Temperature
		}{{"cup", hotterCup, inCup.Peak}, {"bath", hotterBath, inBath.Peak}} {
			share := 100 * float64(in.hotter) / float64(len(p.Worlds))
			if !(share <= 11.5) || !(share >= 8.5) && in.peak < quantity.Celsius(200) {
				t.Errorf("%+v: %.1f of 100 worlds get hotter in the %s than %v", spread, share, in.what, in.peak)
			}
		}
		t.Logf("%+v: cup %v, hotter in %d; bath %v, hotter in %d of %d", spread, inCup.Peak, hotterCup, inBath.Peak, hotterBath, len(p.Worlds))
	}
}
