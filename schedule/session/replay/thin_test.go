package replay

import (
	"math"
	"slices"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/daytest"
)

var loggersTruth = ensemble.Member{Rate: 1.15, Viscosity: 1, Loss: 0.95, Weight: 1}

// loggersDay is a bath that is wound from for an hour while a thermometer logs so many times, with an error of
// up to 0.4 K.
func loggersDay(t testing.TB, readings int) day {
	t.Helper()
	d := newDay(daytest.Prepared(t))
	d.Fill(0, 560)
	d.Begin(6, 1)
	var is []float64
	for m := 6.0; m <= 72; m += 3 {
		w, err := d.script(t, m).World(loggersTruth)
		if err != nil {
			t.Fatal(err)
		}
		is = append(is, w.Bath.Temperature.Celsius())
	}
	d.Logger(readings, 7, 67, func(minutes float64) float64 {
		k := int((minutes - 6) / 3)
		return is[k] + ((minutes-6)/3-float64(k))*(is[k+1]-is[k])
	})
	return d
}

// unthinned weighs all readings.
func unthinned(t testing.TB, d day, minutes float64) *Script {
	t.Helper()
	s, err := compiled(d.W, d.Events, d.Clock(minutes))
	if err != nil {
		t.Fatal(err)
	}
	s.withoutSpare()
	return s
}

// TestFewReadingsAllWeigh: up to 48 of a kind nothing is left out, and each stands for itself.
func TestFewReadingsAllWeigh(t *testing.T) {
	d := loggersDay(t, mostWeighed)
	s, all := d.script(t, 68), unthinned(t, d, 68)
	if len(s.spare) > 0 || !slices.Equal(s.steps, all.steps) || !slices.Equal(s.Readings, all.Readings) {
		t.Errorf("%d of %d readings are spare", len(s.spare), mostWeighed)
	}
}

// TestALoggerIsThinned: of many readings few weigh, they stand for all, and what they say is what all say: the
// speed of the resin to 1 %, the bath to 0.1 K, and neither surer than by all, but for the tenth to which a
// width is known.
func TestALoggerIsThinned(t *testing.T) {
	d := loggersDay(t, 400)
	s, all := d.script(t, 68), unthinned(t, d, 68)
	stand := 0
	for i := range s.Readings {
		if r := &s.Readings[i]; r.Weighs() {
			stand += r.standsFor
		}
	}
	last := s.Readings[len(s.Readings)-1]
	if n := s.weighing(false); n > mostWeighed+3 || n < mostWeighed/2 || stand != 400 || !last.Weighs() || last.standsFor != 1 {
		t.Errorf("%d readings weigh and stand for %d; the last for %d", n, stand, last.standsFor)
	}
	few, err := s.PlayWith(120, 1)
	if err != nil {
		t.Fatal(err)
	}
	many, err := all.PlayWith(120, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		of   func(*World) float64
		near float64
	}{
		{"rate", func(w *World) float64 { return w.Member.Rate }, 0.01},
		{"bath", func(w *World) float64 { return float64(w.Bath.Temperature) }, 0.1},
	} {
		width := func(p *Played) float64 { return p.Quantile(0.9, c.of) - p.Quantile(0.1, c.of) }
		if a, b := few.Likely(c.of), many.Likely(c.of); !(math.Abs(a-b) <= c.near) {
			t.Errorf("%s: %.4f, by all %.4f", c.name, a, b)
		}
		if a, b := width(few), width(many); !(a > 0.85*b && a < 1.3*b) {
			t.Errorf("%s is known to %.4f, by all to %.4f", c.name, a, b)
		}
	}
	if len(few.Doubts) > 0 {
		t.Errorf("doubted: %+v", few.Doubts)
	}
}

// TestThinnedReadingsStillRule: one that is wrong is found among a thousand; one past a limit is of the bath
// until a later one contradicts it; and the last one, hotter than is reckoned, is the bath's.
func TestThinnedReadingsStillRule(t *testing.T) {
	with := func(at, celsius float64) *Script {
		d := loggersDay(t, 1000)
		d.Temperature(at, celsius)
		return d.script(t, 68)
	}
	p, err := with(30.011, 12).PlayWith(60, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Doubts) != 1 || p.Doubts[0].Reading.Temperature != quantity.Celsius(12) {
		t.Errorf("doubted: %+v", p.Doubts)
	}
	if past := with(30.011, 55).PastReading(); past != nil {
		t.Errorf("past a limit by %+v, which later ones contradict", past)
	}
	late := with(67.5, 55)
	if past := late.PastReading(); past == nil || past.Temperature != quantity.Celsius(55) {
		t.Errorf("past a limit by %+v", past)
	}
	if p, err = late.PlayWith(60, 1); err != nil {
		t.Fatal(err)
	}
	if seq := p.Script.Outranks(); seq != late.Readings[len(late.Readings)-1].Seq {
		t.Errorf("the bath's is reading e%d", seq)
	}
}

// TestOldReadingsAreSpare: a thousand readings of a bath that was dumped stop nobody, and the way of the bath
// that follows is the same.
func TestOldReadingsAreSpare(t *testing.T) {
	d := loggersDay(t, 1000)
	d.Done(68, 1)
	d.Changed(70)
	d.Fill(66, 560)
	d.Begin(73, 2)
	for k := range enoughReadings {
		d.Temperature(74+float64(k), 25+0.05*float64(k))
	}
	s := d.script(t, 100)
	if len(s.spare) != 1000 || len(s.steps) > 60 || s.steps[s.weighFrom].do != pour || s.weighFrom != s.watchFrom {
		t.Errorf("%d spare, %d steps, weighed from %d, watched from %d", len(s.spare), len(s.steps), s.weighFrom, s.watchFrom)
	}
	a, b := world(t, s), world(t, unthinned(t, d, 100))
	if !(math.Abs(float64(a.Bath.Temperature-b.Bath.Temperature)) < 1e-2) || a.Bath.Mass != b.Bath.Mass {
		t.Errorf("the bath is %+v, with all stops %+v", a.Bath, b.Bath)
	}
}

// TestCourseOfSpareReadings: what the bath had at a reading at which nobody stops is read off the way.
func TestCourseOfSpareReadings(t *testing.T) {
	usual := vessel.Working
	vessel.Working = vessel.Strict
	t.Cleanup(func() { vessel.Working = usual })
	d := loggersDay(t, 300)
	s := d.script(t, 68)
	c, err := s.course(loggersTruth, s.Moments(100))
	if err != nil {
		t.Fatal(err)
	}
	if len(s.spare) < 200 {
		t.Fatalf("only %d are spare", len(s.spare))
	}
	stopped, err := unthinned(t, d, 68).course(loggersTruth, s.Moments(100))
	if err != nil {
		t.Fatal(err)
	}
	for k, want := range stopped.says {
		if got := c.says[k]; !(math.Abs(got-want) <= 1e-4) {
			t.Errorf("reading %d: %.5f K, with a stop %.5f K", k, got, want)
		}
	}
}

// TestManyRoomReadings: a room that warms by 3 K in four hours and is read every ten seconds, to 0.3 K, is known to
// 0.2 K by a few points, and is at last what was read last.
func TestManyRoomReadings(t *testing.T) {
	few, many := newDay(daytest.Prepared(t)), newDay(daytest.Prepared(t))
	for k := range mostWeighed {
		few.Room(5*float64(k), 23+float64(k%3))
	}
	if n := len(few.script(t, 250).Task.Room.Times()); n < mostWeighed {
		t.Errorf("%d readings make %d points", mostWeighed, n)
	}
	is := func(m float64) float64 { return 23 + 3*m/240 }
	for k := range 1440 {
		m := float64(k) / 6
		many.Room(m, is(m)+0.3*math.Sin(1.7*float64(k)))
	}
	many.Room(240, 27.5)
	room := many.script(t, 241).Task.Room
	if n := len(room.Times()); n > 2*mostWeighed {
		t.Errorf("%d points", n)
	}
	for m := 10.0; m < 235; m += 0.7 {
		if got := room.At(quantity.Time(60 * m)).Celsius(); !(math.Abs(got-is(m)) < 0.2) {
			t.Errorf("%.2f °C after %.1f min, want %.2f °C", got, m, is(m))
		}
	}
	if got := room.At(241 * 60).Celsius(); !(math.Abs(got-27.5) < 1e-9) {
		t.Errorf("%.2f °C at last", got)
	}
}
