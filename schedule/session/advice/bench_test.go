package advice

import (
	"testing"
	"time"

	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// BenchmarkCheckLongDay is what check does once the journal is read.
func BenchmarkCheckLongDay(b *testing.B) {
	w := prepared(b, daytest.Alike(64, 8)...)
	d := newDay(w)
	d.LongDay(func(minutes, noise float64) { d.Temperature(minutes, 23.35+noise) })
	last := d.Clock(d.Last())
	var playing, answering time.Duration
	b.ReportAllocs()
	for b.Loop() {
		j := replay.Journal{Winding: w, Events: d.Events, Started: d.Clock(0)}
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
	b.ReportMetric(float64(len(d.Events)), "events")
}
