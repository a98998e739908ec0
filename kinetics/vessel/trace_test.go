package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestTraceSamples: the start, every interval, and the end once.
func TestTraceSamples(t *testing.T) {
	b := inRoom(medium(), tray(), 23)
	for _, c := range []struct {
		from, to, interval quantity.Time
		want               int
	}{
		{0, hour, 10 * minute, 7},
		{0, hour, 7 * minute, 10},
		{0, 1, 0.1, 11},
		{0, 10, 0.1, 101},
		{1000, 1000 + hour, hour, 2},
		{0, hour, 2 * hour, 2},
		{0, 0, minute, 1},
		{0, hour, 0, 1},
		{0, hour, -minute, 1},
	} {
		start := fresh(0.5, 23)
		end, samples, err := b.Trace(start, c.from, c.to, c.interval, vessel.Tow{})
		if err != nil {
			t.Fatal(err)
		}
		if len(samples) != c.want {
			t.Errorf("%g to %g s every %g: %d samples, want %d", float64(c.from), float64(c.to), float64(c.interval), len(samples), c.want)
			continue
		}
		if last := samples[len(samples)-1]; last.At != c.to || last.State != end {
			t.Errorf("the last sample is %+v, want the end %+v", last, end)
		}
		if len(samples) > 1 && (samples[0].At != c.from || math.Abs(float64(samples[0].Temperature-start.Temperature)) > 1e-9) {
			t.Errorf("the first sample is %+v, want the start", samples[0])
		}
		for i, s := range samples[:len(samples)-1] {
			if want := float64(c.from) + float64(i)*float64(c.interval); !(math.Abs(float64(s.At)-want) <= 1e-9) {
				t.Errorf("sample %d at %.12g s, want %.12g", i, float64(s.At), want)
			}
		}
	}
}

// TestTraceIsAdvance: samples are states of the same run; the dense output is as
// good as a step, 2e-6 in α and 1 mK, and ten may add up.
func TestTraceIsAdvance(t *testing.T) {
	b := inRoom(fast(), tray(), 23)
	tow := vessel.Tow{DrawKgPerS: 5e-5, FibreKgPerS: 5e-4, HeatCapacity: vessel.GlassHeatCapacity}
	start := fresh(0.6, 23)
	_, samples, err := b.Trace(start, 0, hour, 5*minute, tow)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range samples {
		want := advanced(t, b, start, 0, s.At, tow)
		if !(math.Abs(s.Alpha-want.Alpha) <= 2e-5) || !(math.Abs(float64(s.Temperature-want.Temperature)) <= 1e-2) ||
			!(math.Abs(float64(s.Mass-want.Mass)) <= 1e-12) {
			t.Errorf("at %g s: sample %+v, advanced %+v", float64(s.At), s.State, want)
		}
	}
}

// TestThroughSeesTheWay: the states that are seen are those of runs that end there, to what a step may err by,
// and the way is the same as if nobody looked.
func TestThroughSeesTheWay(t *testing.T) {
	b, s := inRoom(fast(), tray(), 23), fresh(0.6, 23)
	at := []quantity.Time{0, 0, 61, 600, 601, 3599.5, 3600}
	tow := vessel.Tow{DrawKgPerS: 2e-5, FibreKgPerS: 4e-5, HeatCapacity: 750}
	seen := 0
	end, err := b.Through(s, 0, 3600, tow, at, func(i int, is vessel.State) {
		if i != seen {
			t.Fatalf("sees %d after %d", i, seen)
		}
		seen++
		want, err := inRoom(fast(), tray(), 23).Advance(s, 0, at[i], tow)
		if err != nil {
			t.Fatal(err)
		}
		if !(math.Abs(float64(is.Temperature-want.Temperature)) < 5e-3) || !(math.Abs(is.Alpha-want.Alpha) < 1e-5) || !(math.Abs(float64(is.Mass-want.Mass)) < 1e-9) {
			t.Errorf("at %g s %+v, want %+v", at[i], is, want)
		}
	})
	if err != nil || seen != len(at) {
		t.Fatalf("%d seen, %v", seen, err)
	}
	if blind, err := inRoom(fast(), tray(), 23).Advance(s, 0, 3600, tow); err != nil || blind != end {
		t.Errorf("ends in %+v, unseen in %+v", end, blind)
	}
}
