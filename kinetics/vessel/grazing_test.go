package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestGrazingPeak: a quiet bath warms a little and cools again, its summit inside
// one long step. A limit just below the summit is crossed, one just above is
// not. In so quiet a bath the temperature wanders by the 1 mK that Working
// precision allows a step; 5 mK is just below and just above.
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
			for _, below := range []float64{5e-3, 0.02, 0.1, 0.3, 0.5} {
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
			l.BathTemperature = m.Peak + 5e-3
			if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy == vessel.BathTemperature {
				t.Errorf("rate times %g: ends by temperature above its peak", slowed)
			}
		}
	}
}

// TestGrazingViscosity: warm resin thickens as it cools in a cold room and thins as
// the room warms; the viscosity passes a summit, at which the room has no kink.
// 5 mK are 5e-4 in ln η.
func TestGrazingViscosity(t *testing.T) {
	r := medium()
	r.Cure = r.Cure.Scaled(0.01)
	room, err := vessel.NewSeries([]quantity.Time{0, 10 * hour}, []quantity.Temperature{quantity.Celsius(15), quantity.Celsius(35)})
	if err != nil {
		t.Fatal(err)
	}
	b, s := vessel.New(r, tray(), room, room, vessel.Working), fresh(0.4, 25)
	_, samples, err := b.Trace(s, 0, 10*hour, 10, vessel.Tow{})
	if err != nil {
		t.Fatal(err)
	}
	top := samples[0]
	for _, x := range samples {
		if x.LogViscosity(&r) > top.LogViscosity(&r) {
			top = x
		}
	}
	if !(top.At > 10*minute && top.At < 9*hour) {
		t.Fatalf("the viscosity is highest at %g s, want a summit on the way", float64(top.At))
	}
	l := far()
	for _, below := range []float64{5e-4, 2e-3, 0.01, 0.1, 0.3} {
		l.BathViscosity = quantity.Viscosity(math.Exp(top.LogViscosity(&r) - below))
		if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy != vessel.BathViscosity || !(life.Left < top.At) {
			t.Errorf("%g below the summit at %g s: ends by %q after %g s", below, float64(top.At), life.EndsBy, float64(life.Left))
		}
	}
	l.BathViscosity = quantity.Viscosity(math.Exp(top.LogViscosity(&r) + 5e-4))
	if life := lifeOf(t, b, s, vessel.Tow{}, l); life.EndsBy == vessel.BathViscosity && life.Left < 10*hour {
		t.Errorf("above the summit: ends by %q after %g s", life.EndsBy, float64(life.Left))
	}
}
