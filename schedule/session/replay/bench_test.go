package replay

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/schedule"
	"potlife/schedule/session"
)

// longDay is a journal of some 500 events: 62 layers, each with a pot, a pause and two
// readings of a hidden bath, and a change after every fifteen.
func longDay(t testing.TB) (*schedule.Winding, *log) {
	t.Helper()
	source := fmt.Sprintf(strut, "")
	source = source[:strings.Index(source, "\nlayers:")] + "\nlayers:\n" +
		strings.Repeat("  - {helical: 45 deg, time: 8 min, tow: 60 m}\n", 62)
	job, err := schedule.ReadJob("long.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	l := newLog(w)
	truth := ensemble.Member{Rate: 1.2, Viscosity: 1, Loss: 0.9, Weight: 1}
	read := func(minutes, noise float64) {
		t.Helper()
		world, err := l.script(t, w, minutes).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		l.temperature(minutes, world.Bath.Temperature.Celsius()+noise)
	}
	now := 0.0
	for k := range 62 {
		grams := 35.0
		if k%15 == 0 {
			grams = 250
		}
		l.fill(now, grams)
		now += 6
		l.layer(session.Begin, now, k+1)
		read(now+2, 0.4*math.Sin(float64(k)))
		l.add(now+3, session.Event{Kind: session.Pause, Text: "x"})
		l.add(now+4, session.Event{Kind: session.Resume})
		read(now+6, 0.4*math.Cos(float64(3*k)))
		l.layer(session.Done, now+9, k+1)
		now += 9.5
		if k%15 == 14 {
			l.add(now, session.Event{Kind: session.Changed})
			now++
		}
	}
	return w, l
}

func BenchmarkPlayLongDay(b *testing.B) {
	w, l := longDay(b)
	s := l.script(b, w, 980)
	b.ReportAllocs()
	for b.Loop() {
		p, err := s.Play()
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(p.Cloud.Rounds), "rounds")
		b.ReportMetric(float64(p.Cloud.Effective), "effective")
	}
	b.ReportMetric(float64(len(l.events)), "events")
}

func BenchmarkWorldLongDay(b *testing.B) {
	w, l := longDay(b)
	s := l.script(b, w, 980)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.World(ensemble.Nominal()); err != nil {
			b.Fatal(err)
		}
	}
}
