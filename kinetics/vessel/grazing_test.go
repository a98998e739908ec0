package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestGrazingPeak: a quiet bath warms a little and cools again, its summit inside
// one long step. A limit just below the summit is crossed, one just above is
// not. The closest, 1 mK, is one step's error.
func TestGrazingPeak(t *testing.T) {
	for _, slowed := range []float64{1, 0.5, 0.2, 0.05} {
		r := medium()
		r.Cure = r.Cure.Scaled(slowed)
		r.Gel = 0.9
		for _, mass := range []quantity.Mass{0.1, 0.2, 0.3} {
			b, s := inRoom(r, tray(), 20), fresh(mass, 20)
			m, err := b.Milestones(s, 0, 48*hour)
			if err != nil {
				t.Fatal(err)
			}
			l := far()
			for _, below := range []float64{1e-3, 1e-2, 0.1, 0.3, 0.5} {
				if below > 0.9*float64(m.Peak-s.Temperature) {
					continue
				}
				l.BathTemperature = m.Peak - quantity.Temperature(below)
				life := lifeOf(t, b, s, vessel.Tow{}, l)
				if life.EndsBy != vessel.BathTemperature || !(life.Left < m.PeakAt) {
					t.Errorf("rate times %g, %g kg, peak %.3f °C: %g K below it, ends by %q after %g s, want before the peak at %g s",
						slowed, float64(mass), m.Peak.Celsius(), below, life.EndsBy, float64(life.Left), float64(m.PeakAt))
				}
			}
			l.BathTemperature = m.Peak + 1e-3
			if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy == vessel.BathTemperature {
				t.Errorf("rate times %g: ends by temperature above its peak", slowed)
			}
		}
	}
}

// TestGrazingViscosity: warm resin thickens as it cools in a cold room, which then
// warms: the viscosity passes a summit. The room has no kink there.
func TestGrazingViscosity(t *testing.T) {
	r := medium()
	r.Cure = r.Cure.Scaled(0.3)
	b, s := inRoom(r, tray(), 20), fresh(0.3, 20)
	s.Temperature = quantity.Celsius(20)
	r.Heat *= 3
	b = inRoom(r, tray(), 19)
	_, samples, err := b.Trace(s, 0, 5*hour, 10, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	top, found := 0.0, false
	for i := 1; i < len(samples)-1; i++ {
		before, now, after := samples[i-1].LogViscosity(b.Resin()), samples[i].LogViscosity(b.Resin()), samples[i+1].LogViscosity(b.Resin())
		if now > before && now > after {
			top, found = now, true
			break
		}
	}
	if !found {
		t.Skip("this bath has no summit of viscosity")
	}
	l := far()
	for _, below := range []float64{1e-3, 1e-2} {
		l.BathViscosity = quantity.Viscosity(math.Exp(top - below))
		if l.BathViscosity <= s.Viscosity(b.Resin()) {
			continue
		}
		if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy != vessel.BathViscosity {
			t.Errorf("%g below the summit: ends by %q", below, life.EndsBy)
		}
	}
}
