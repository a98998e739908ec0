package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

func TestSeriesIsLinearBetweenAndConstantOutside(t *testing.T) {
	s, err := vessel.NewSeries([]quantity.Time{100, 200, 400}, []quantity.Temperature{290, 300, 280})
	if err != nil {
		t.Fatal(err)
	}
	for at, want := range map[quantity.Time]quantity.Temperature{
		-1e9: 290, 0: 290, 100: 290, 125: 292.5, 150: 295, 200: 300, 300: 290, 350: 285, 400: 280, 401: 280, 1e12: 280,
	} {
		if got := s.At(at); !(math.Abs(float64(got-want)) <= 1e-12*float64(want)) {
			t.Errorf("at %g s: %.12g K, want %g", float64(at), float64(got), float64(want))
		}
		if got := s.Shifted(2).At(at); !(math.Abs(float64(got-want-2)) <= 1e-12*float64(want)) {
			t.Errorf("shifted by 2 K, at %g s: %.12g K, want %g", float64(at), float64(got), float64(want+2))
		}
	}
	if s.IsConstant() || !vessel.Constant(300).IsConstant() {
		t.Error("only one point is constant")
	}
	if got := vessel.Constant(300).At(-5); got != 300 {
		t.Errorf("a constant is %g before its time, want 300", float64(got))
	}
}

func TestSeriesRefuses(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for name, c := range map[string]struct {
		at []quantity.Time
		is []quantity.Temperature
	}{
		"nothing":                  {nil, nil},
		"fewer temperatures":       {[]quantity.Time{0, 1}, []quantity.Temperature{300}},
		"fewer times":              {[]quantity.Time{0}, []quantity.Temperature{300, 300}},
		"times that stand still":   {[]quantity.Time{0, 0}, []quantity.Temperature{300, 301}},
		"times that go back":       {[]quantity.Time{5, 4}, []quantity.Temperature{300, 301}},
		"a time that is none":      {[]quantity.Time{0, quantity.Time(nan)}, []quantity.Temperature{300, 301}},
		"a first time that is":     {[]quantity.Time{quantity.Time(nan)}, []quantity.Temperature{300}},
		"an infinite last time":    {[]quantity.Time{0, quantity.Time(inf)}, []quantity.Temperature{300, 301}},
		"an infinite first time":   {[]quantity.Time{quantity.Time(-inf), 0}, []quantity.Temperature{300, 301}},
		"absolute zero":            {[]quantity.Time{0}, []quantity.Temperature{0}},
		"a temperature below zero": {[]quantity.Time{0, 1}, []quantity.Temperature{300, -1}},
		"no temperature":           {[]quantity.Time{0}, []quantity.Temperature{quantity.Temperature(nan)}},
		"an infinite temperature":  {[]quantity.Time{0}, []quantity.Temperature{quantity.Temperature(inf)}},
	} {
		if _, err := vessel.NewSeries(c.at, c.is); err == nil {
			t.Errorf("%s: taken, want an error", name)
		}
	}
}

// TestKinksOfTheRoom: points that lie on the line change nothing, however close
// they are, and a run may begin and end at one.
func TestKinksOfTheRoom(t *testing.T) {
	line := func(at ...quantity.Time) vessel.Series {
		var is []quantity.Temperature
		for _, x := range at {
			is = append(is, quantity.Celsius(20+float64(x)/float64(hour)))
		}
		s, err := vessel.NewSeries(at, is)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	run := func(room vessel.Series) vessel.State {
		b := vessel.New(medium(), tray(), room, room, vessel.Strict)
		return advanced(t, b, fresh(0.5, 22), 0, 2*hour, vessel.Tow{})
	}
	want := run(line(0, 4*hour))
	for name, room := range map[string]vessel.Series{
		"a point at the end": line(0, 2*hour, 4*hour),
		"many points":        line(0, 10*minute, 20*minute, hour, 61*minute, 4*hour),
		"two a bit apart":    line(0, hour, quantity.Time(math.Nextafter(float64(hour), inf)), 4*hour),
		"points before":      line(-2*hour, -hour, 0, 4*hour),
	} {
		got := run(room)
		// A restart changes the steps; each is good to 1e-10.
		if !(math.Abs(got.Alpha-want.Alpha) <= 1e-9) || !(math.Abs(float64(got.Temperature-want.Temperature)) <= 1e-6) {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
}

var inf = math.Inf(1)
