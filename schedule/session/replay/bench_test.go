package replay

import (
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session/daytest"
)

// longDay is a long day with readings of a hidden bath.
func longDay(t testing.TB) day {
	t.Helper()
	d := newDay(daytest.Prepared(t, daytest.Alike(62, 8)...))
	truth := ensemble.Member{Rate: 1.2, Viscosity: 1, Loss: 0.9, Weight: 1}
	d.LongDay(func(minutes, noise float64) {
		t.Helper()
		world, err := d.script(t, minutes).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		d.Temperature(minutes, world.Bath.Temperature.Celsius()+noise)
	})
	return d
}

func BenchmarkPlayLongDay(b *testing.B) {
	d := longDay(b)
	s := d.script(b, 980)
	b.ReportAllocs()
	for b.Loop() {
		p, err := s.Play()
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(p.Cloud.Rounds), "rounds")
		b.ReportMetric(float64(p.Cloud.Effective), "effective")
	}
	b.ReportMetric(float64(len(d.Events)), "events")
}

func BenchmarkWorldLongDay(b *testing.B) {
	d := longDay(b)
	s := d.script(b, 980)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.World(ensemble.Nominal()); err != nil {
			b.Fatal(err)
		}
	}
}
