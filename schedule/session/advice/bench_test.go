package advice

import (
	"strings"
	"testing"
	"time"

	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// longDay is a journal of some 500 events: 62 layers, each with a pot, a pause and two
// readings, and a change after every fifteen.
func longDay(t testing.TB) (*schedule.Winding, *day) {
	t.Helper()
	source := tube[:strings.Index(tube, "\nlayers:")] + "\nlayers:\n" + strings.Repeat("  - {helical: 45 deg, time: 8 min, tow: 60 m}\n", 64)
	job, err := schedule.ReadJob("long.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	w := winding(t, job)
	d := newDay(w)
	now := 0.0
	for k := range 62 {
		grams := 35.0
		if k%15 == 0 {
			grams = 250
		}
		d.fill(now, grams)
		now += 6
		d.layer(session.Begin, now, k+1)
		d.temperature(now+2, 23.2)
		d.pause(now + 3)
		d.resume(now + 4)
		d.temperature(now+6, 23.5)
		d.layer(session.Done, now+9, k+1)
		now += 9.5
		if k%15 == 14 {
			d.add(now, session.Event{Kind: session.Changed})
			now++
		}
	}
	return w, d
}

// BenchmarkCheckLongDay is what check does once the journal is read.
func BenchmarkCheckLongDay(b *testing.B) {
	w, d := longDay(b)
	last := d.events[len(d.events)-1].At
	var playing, answering time.Duration
	b.ReportAllocs()
	for b.Loop() {
		j := replay.Journal{Winding: w, Events: d.events, Started: d.clock(0)}
		began := time.Now()
		s, err := j.Script(last, 0)
		if err != nil {
			b.Fatal(err)
		}
		p, err := s.Play()
		if err != nil {
			b.Fatal(err)
		}
		played := time.Now()
		if _, err := Now(p); err != nil {
			b.Fatal(err)
		}
		playing, answering = playing+played.Sub(began), answering+time.Since(played)
	}
	b.ReportMetric(float64(playing.Milliseconds())/float64(b.N), "ms/play")
	b.ReportMetric(float64(answering.Milliseconds())/float64(b.N), "ms/answer")
	b.ReportMetric(float64(len(d.events)), "events")
}
