package resins_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/catalogue"
)

// A system of the catalogue where its own data may be trusted. Package vessel holds three
// resins to the same rules in a stirred bath; here all are, in all that holds resin.
type system struct {
	*resins.Record
	low, high float64 // °C, of what crews work at
}

func systems(t *testing.T) []system {
	t.Helper()
	var all []system
	for _, name := range catalogue.Systems() {
		r := load(t, name)
		// Five kelvin are left for what is warmer.
		all = append(all, system{r, r.Valid.From.Celsius(), r.Valid.To.Celsius() - 5})
	}
	if len(all) < 5 {
		t.Fatalf("%d systems", len(all))
	}
	return all
}

// A holder is what resin stands in, at a room of so many °C; ends beyond two days are none.
type holder struct {
	kind string
	in   resins.Container
	mass quantity.Mass
}

func drawHolder(t *rapid.T, stirred bool, r *resins.Record) holder {
	mass := quantity.Mass(rapid.Float64Range(0.05, 1.5).Draw(t, "mass"))
	h := holder{kind: "tray", mass: mass, in: resins.Container{Length: 0.3, Width: 0.12}}
	if rapid.Bool().Draw(t, "cup") {
		h.kind, h.in = "cup", resins.AssumedCup(mass, r.Kinetics.Density)
	}
	h.in.Drum = turning(stirred)
	return h
}

const patience quantity.Time = 48 * 3600

func (h holder) timeTo(t *rapid.T, k kinetics.Resin, end vessel.EndPoint, room, from, alpha float64) float64 {
	start := vessel.State{Mass: h.mass, Temperature: quantity.Celsius(from), Alpha: alpha}
	series := vessel.Constant(quantity.Celsius(room))
	var at quantity.Time
	var err error
	if h.in.Drum == resins.Turning {
		at, err = vessel.New(k, h.in.Vessel(false), series, series, vessel.Working).TimeTo(end, start, 0, patience)
	} else {
		var pot *still.Pot
		if pot, err = still.New(k, h.in.Body(h.mass, 1, false), series, series, h.in.Grid(9, 0)); err == nil {
			at, err = pot.TimeTo(end, start, 0, patience)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	return float64(at)
}

// slacks are what two times may differ by without a meaning: a stirred bath of Working
// precision is good to 1e-4, a still one to 1e-3 on its own grid (package still).
var slacks = map[bool]float64{true: 2e-4, false: 2e-3}

// TestWarmerIsNeverLaterAnywhere: with the room and the resin warmer, or the resin alone,
// no system of the catalogue gels later nor reaches the bath's temperature limit later,
// stirred or still. Of a viscosity limit that is not so: a warmer bath is thinner, and may
// be so for longer than its cure is faster.
func TestWarmerIsNeverLaterAnywhere(t *testing.T) {
	all := systems(t)
	for _, stirred := range []bool{true, false} {
		rapid.Check(t, func(t *rapid.T) {
			s := rapid.SampledFrom(all).Draw(t, "system")
			h := drawHolder(t, stirred, s.Record)
			celsius := rapid.Float64Range(s.low, s.high).Draw(t, "celsius")
			rise := rapid.Float64Range(0.1, 5).Draw(t, "rise")
			room := celsius
			if rapid.Bool().Draw(t, "room too") {
				room += rise
			}
			limit := math.Max(40, s.high+15) // above where any of them begins
			for name, end := range map[string]vessel.EndPoint{"gel": {Gel: true}, "temperature limit": {Temperature: quantity.Celsius(limit)}} {
				cool := h.timeTo(t, s.Kinetics, end, celsius, celsius, 0)
				warm := h.timeTo(t, s.Kinetics, end, room, celsius+rise, 0)
				if !(warm <= cool*(1+slacks[stirred])) {
					t.Errorf("%s in a %s, stirred %v, %v: %s after %g s from %g °C, after %g s from %g K more", s.Name, h.kind, stirred, h.mass, name, cool, celsius, warm, rise)
				}
			}
		})
	}
}

// TestOlderIsNeverYoungerAnywhere: with more of its cure behind it no system gels later,
// stirred or still. The conversions are those of resin that is still poured: past α = 0.27,
// in large masses, resin that has less heat left to give can gel later than younger resin of
// the same temperature; two degrees that straddle no such place are drawn here.
func TestOlderIsNeverYoungerAnywhere(t *testing.T) {
	all := systems(t)
	for _, stirred := range []bool{true, false} {
		rapid.Check(t, func(t *rapid.T) {
			s := rapid.SampledFrom(all).Draw(t, "system")
			h := drawHolder(t, stirred, s.Record)
			celsius := rapid.Float64Range(s.low, s.high).Draw(t, "celsius")
			young := rapid.Float64Range(0, 0.06).Draw(t, "alpha")
			old := young + rapid.Float64Range(0.001, 0.06).Draw(t, "older by")
			end := vessel.EndPoint{Gel: true}
			second := h.timeTo(t, s.Kinetics, end, celsius, celsius, young)
			first := h.timeTo(t, s.Kinetics, end, celsius, celsius, old)
			if !(first <= second*(1+slacks[stirred])) {
				t.Errorf("%s in a %s, stirred %v, %v at %g °C: gels after %g s from α = %g, after %g s from %g", s.Name, h.kind, stirred, h.mass, celsius, second, young, first, old)
			}
		})
	}
}

// TestFilmsKeepTheOrder: a film gels no later on a warmer mandrel, nor from an older bath,
// nor is one that is laid later gelled earlier; on a mandrel of one temperature and on one
// that warms. Both are integrated to 1e-4.
func TestFilmsKeepTheOrder(t *testing.T) {
	all := systems(t)
	gel := func(t *rapid.T, k kinetics.Resin, mandrel vessel.Series, alpha float64, at quantity.Time) float64 {
		gels, err := vessel.NewFilm(k, mandrel).GelAt(alpha, at)
		if err != nil {
			t.Fatal(err)
		}
		return float64(gels)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(all).Draw(t, "system")
		celsius := rapid.Float64Range(s.low, s.high).Draw(t, "celsius")
		mandrel := vessel.Constant(quantity.Celsius(celsius))
		if rapid.Bool().Draw(t, "warms") {
			var err error
			mandrel, err = vessel.NewSeries([]quantity.Time{0, 7200}, []quantity.Temperature{quantity.Celsius(celsius), quantity.Celsius(celsius + 4)})
			if err != nil {
				t.Fatal(err)
			}
		}
		alpha := rapid.Float64Range(0, 0.9*s.Kinetics.Gel).Draw(t, "alpha")
		at := quantity.Time(rapid.Float64Range(0, 7200).Draw(t, "at"))
		base := gel(t, s.Kinetics, mandrel, alpha, at)
		older := math.Min(alpha+rapid.Float64Range(0.001, 0.2).Draw(t, "older by"), s.Kinetics.Gel)
		rise := rapid.Float64Range(0.1, 5).Draw(t, "rise")
		if warm := gel(t, s.Kinetics, mandrel.Shifted(quantity.TemperatureDifference(rise)), alpha, at); !(warm-float64(at) <= (base-float64(at))*(1+2e-4)) {
			t.Errorf("%s at %g °C gels at %g s, %g K warmer at %g s", s.Name, celsius, base, rise, warm)
		}
		if old := gel(t, s.Kinetics, mandrel, older, at); !(old-float64(at) <= (base-float64(at))*(1+2e-4)) {
			t.Errorf("%s at %g °C: from α = %g it gels at %g s, from %g at %g s", s.Name, celsius, alpha, base, older, old)
		}
		if later := gel(t, s.Kinetics, mandrel, alpha, at+600); !(later >= base-2e-4*(base-float64(at))) {
			t.Errorf("%s at %g °C: laid at %g s it gels at %g s, ten minutes later at %g s", s.Name, celsius, float64(at), base, later)
		}
		if !(base >= float64(at)) {
			t.Errorf("%s gels before it is laid", s.Name)
		}
	})
}
