package vessel_test

import (
	"errors"
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// glassTows are four tows of 2400 tex at 15 m/min.
func glassTows() vessel.Tow {
	return vessel.Tow{FibreKgPerS: 4 * 2400e-6 * 15. / 60, HeatCapacity: vessel.GlassHeatCapacity}
}

// TestStandingTowShortensALife: four glass tows carry off more heat than the tray
// does; a bath held cool by them runs away when the machine stops.
func TestStandingTowShortensALife(t *testing.T) {
	b, s := inRoom(fast(), tray(), 23), fresh(0.8, 23)
	v := tray()
	if tow := glassTows(); !(tow.FibreKgPerS*float64(tow.HeatCapacity) > float64(v.SurfaceLoss+v.WallLoss)*v.AreaM2) {
		t.Fatal("the tows carry off less than the tray")
	}
	running := lifeOf(t, b, s, glassTows(), usual(23))
	standing := lifeOf(t, b, s, vessel.Tow{}, usual(23))
	if !(standing.Left < running.Left) || standing.EndsBy != vessel.BathTemperature {
		t.Errorf("standing %+v, running %+v, want the standing bath to go first and by temperature", standing, running)
	}
	// Stopped half way: between both, and the time left counts from the stop.
	half := running.Left / 2
	stopped, err := b.Life(advanced(t, b, s, 0, half, glassTows()), half, vessel.Tow{}, 0.1, usual(23), 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	if !(half+stopped.Left < running.Left && half+stopped.Left > standing.Left) {
		t.Errorf("stopped after %g s it has %g s, want an end between %g and %g s", float64(half), float64(stopped.Left), float64(standing.Left), float64(running.Left))
	}
}

// TestTowStopsDrawingAtTheLowest: the level falls to it and stays, while the tow
// goes on cooling; the same by hand in two runs.
func TestTowStopsDrawingAtTheLowest(t *testing.T) {
	const lowest = 0.25
	b, s, l := inRoom(medium(), tray(), 25), fresh(0.7, 25), usual(25)
	tow := vessel.Tow{DrawKgPerS: 3e-4, FibreKgPerS: 6e-4, HeatCapacity: vessel.CarbonHeatCapacity}
	got, err := b.Life(s, 0, tow, lowest, l, 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	drawn := quantity.Time((0.7 - lowest) / tow.DrawKgPerS)
	if !(got.Left > drawn) {
		t.Fatalf("the life of %g s ends before the bath is down, %g s", float64(got.Left), float64(drawn))
	}
	w := vessel.NewWatch(b, l)
	state, now, err := w.Advance(s, 0, drawn, tow)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass when down", float64(state.Mass), lowest, 1e-9)
	tow.DrawKgPerS = 0
	if _, _, err = w.Advance(state, now, 24*hour, tow); err != nil {
		t.Fatal(err)
	}
	by, at := w.End()
	if by != got.EndsBy {
		t.Errorf("ends by %q, by hand by %q", got.EndsBy, by)
	}
	near(t, "life", float64(got.Left), float64(at), 1e-9)
}

// TestLifeOfABathAlreadyDown, or a hair above: it draws no more.
func TestLifeOfABathAlreadyDown(t *testing.T) {
	b, l := inRoom(medium(), tray(), 25), usual(25)
	tow := vessel.Tow{DrawKgPerS: 3e-4, FibreKgPerS: 6e-4, HeatCapacity: vessel.CarbonHeatCapacity}
	still := tow
	still.DrawKgPerS = 0
	for _, from := range []quantity.Time{0, 1e5} {
		for _, mass := range []quantity.Mass{0.1, 0.2, quantity.Mass(math.Nextafter(0.2, 1)), 0.2 + 1e-15, 0.2 + 1e-13} {
			got, err := b.Life(fresh(mass, 25), from, tow, 0.2, l, 24*hour)
			if err != nil {
				t.Errorf("%.17g kg from %g s: %v", float64(mass), float64(from), err)
				continue
			}
			want, err := b.Life(fresh(mass, 25), from, still, 0.2, l, 24*hour)
			if err != nil {
				t.Fatal(err)
			}
			if d := math.Abs(float64(got.Left / want.Left)); !(math.Abs(d-1) <= 1e-5) { // another run of Working precision
				t.Errorf("%.17g kg from %g s: %g s, want %g", float64(mass), float64(from), float64(got.Left), float64(want.Left))
			}
		}
	}
}

// TestDrawnEmpty: a bath has 500 s of resin. Up to there it has an answer, from
// there on an error, never a negative mass, a hang or a NaN.
func TestDrawnEmpty(t *testing.T) {
	b := inRoom(medium(), tray(), 25)
	tow := vessel.Tow{DrawKgPerS: 1e-3, FibreKgPerS: 6e-4, HeatCapacity: vessel.CarbonHeatCapacity}
	for _, to := range []quantity.Time{400, 499.9, 500, 501, hour} {
		s, err := b.Advance(fresh(0.5, 25), 0, to, tow)
		if to < 500 && err != nil {
			t.Errorf("to %g s: %v", float64(to), err)
		}
		if to >= 500 && !errors.Is(err, vessel.ErrEmpty) {
			t.Errorf("to %g s: %v, want %v", float64(to), err, vessel.ErrEmpty)
		}
		if !(s.Mass > 0) || !(s.Alpha >= 0) || !(s.Temperature > quantity.Celsius(20)) {
			t.Errorf("to %g s: %+v", float64(to), s)
		}
	}
	// A limit on the way comes first.
	l := usual(25)
	l.BathTemperature = quantity.Celsius(25.05)
	life, err := b.Life(fresh(0.5, 25), 0, vessel.Tow{DrawKgPerS: 1e-3}, 0, l, 24*hour)
	if err != nil || life.EndsBy != vessel.BathTemperature {
		t.Errorf("%+v, %v, want an end by temperature before the bath is empty", life, err)
	}
	if _, err = b.Life(fresh(0.5, 25), 0, tow, 0, usual(25), 24*hour); !errors.Is(err, vessel.ErrEmpty) {
		t.Errorf("%v, want %v", err, vessel.ErrEmpty)
	}
}
