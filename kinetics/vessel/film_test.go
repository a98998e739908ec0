package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

func filmGel(t *testing.T, r kinetics.Resin, mandrel vessel.Series, alpha float64, at quantity.Time) quantity.Time {
	t.Helper()
	gel, err := vessel.NewFilm(r, mandrel).GelAt(alpha, at)
	if err != nil {
		t.Fatal(err)
	}
	return gel
}

// TestFilmIsABathWithoutHeat: a film gels when a bath of the same resin does that
// gives no heat and stands in a room as warm as the mandrel. The bath runs at
// Strict precision, good to 1e-7 in time; the film's table is far better.
func TestFilmIsABathWithoutHeat(t *testing.T) {
	for _, r := range []kinetics.Resin{medium(), fast(), slow()} {
		for _, celsius := range []float64{15, 22, 35} {
			mandrel := vessel.Constant(quantity.Celsius(celsius))
			cold := r
			cold.Heat = 0
			b := vessel.New(cold, tray(), mandrel, mandrel, vessel.Strict)
			for _, alpha := range []float64{0, 0.1, 0.33, r.Gel - 1e-3} {
				s := fresh(0.5, celsius)
				s.Alpha = alpha
				want, err := b.TimeTo(vessel.EndPoint{Gel: true}, s, 0, 400*hour)
				if err != nil {
					t.Fatal(err)
				}
				got := filmGel(t, r, mandrel, alpha, 1000) - 1000
				if !(math.Abs(float64(got-want)) <= 1e-7*float64(want)+1e-5) {
					t.Errorf("%s at %g °C from α = %g: %.6f s, the bath takes %.6f", r.Name, celsius, alpha, float64(got), float64(want))
				}
			}
		}
	}
}

// TestFilmOnAMandrelThatChanges: points that change nothing give the same time, to
// the 1e-4 of Working precision; a mandrel that warms gels the film sooner.
func TestFilmOnAMandrelThatChanges(t *testing.T) {
	r := medium()
	series := func(later float64) vessel.Series {
		s, err := vessel.NewSeries([]quantity.Time{0, hour, 2 * hour},
			[]quantity.Temperature{quantity.Celsius(22), quantity.Celsius(22), quantity.Celsius(later)})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	constant := filmGel(t, r, vessel.Constant(quantity.Celsius(22)), 0.02, 600)
	near(t, "gel", float64(filmGel(t, r, series(22), 0.02, 600)), float64(constant), 1e-4)
	if warm := filmGel(t, r, series(40), 0.02, 600); !(warm < constant && warm > hour) {
		t.Errorf("on a mandrel that warms gel at %g s, at 22 °C %g s", float64(warm), float64(constant))
	}
}

// TestFilmThatIsGelled needs no time.
func TestFilmThatIsGelled(t *testing.T) {
	if got := filmGel(t, medium(), vessel.Constant(295), 0.577, 42); got != 42 {
		t.Errorf("gel at %g s, want at once", float64(got))
	}
}

// TestFilmThatTurnsToGlass: on a mandrel so cold that the gel would be glass, a
// film does not gel within seven days, from whatever age, and says +Inf by the
// table as by the integration.
func TestFilmThatTurnsToGlass(t *testing.T) {
	r := medium()
	cold := r.Glass.At(r.Gel) - quantity.Temperature(kinetics.DefaultShift) - 30
	kinked, err := vessel.NewSeries([]quantity.Time{0, hour}, []quantity.Temperature{cold, cold})
	if err != nil {
		t.Fatal(err)
	}
	for _, mandrel := range []vessel.Series{vessel.Constant(cold), kinked} {
		for _, alpha := range []float64{0, 0.2, 0.57} {
			if got := filmGel(t, r, mandrel, alpha, 0); !math.IsInf(float64(got), 1) {
				t.Errorf("at %g °C from α = %g: gel at %g s, want never", cold.Celsius(), alpha, float64(got))
			}
		}
	}
	// Vitrified to nothing at all: the rate is 0 and its inverse infinite.
	if got := filmGel(t, r, vessel.Constant(quantity.Celsius(-150)), 0.3, 0); !math.IsInf(float64(got), 1) {
		t.Errorf("at -150 °C: gel at %g s, want never", float64(got))
	}
}

// TestFilmOfATwoStageLaw: the rate jumps in one of the 64 cells below gel, which is
// then off by a part of itself: less than 1e-4 of the whole.
func TestFilmOfATwoStageLaw(t *testing.T) {
	r := twoStage(0)
	b := atOven(r, vessel.Strict, vessel.Constant(400))
	near(t, "gel", float64(filmGel(t, r, vessel.Constant(400), 0, 0)), float64(gelOf(t, b, hotStart)), 1e-4)
}
