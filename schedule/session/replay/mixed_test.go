package replay

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// byDrill replaces words of a job that is mixed by hand.
var byDrill = []string{"mixing: 5 min", "mixing: {time: 5 min, by: drill}"}

// warmer is a member whose resin is mixed 1.5 K warmer than expected.
func warmer() ensemble.Member {
	m := ensemble.Nominal()
	m.Mixed = 1.5
	return m
}

// mixes are the temperatures in °C at which a member has the pots of a day mixed, and one to come.
func mixes(s *Script, m ensemble.Member) (list []float64) {
	w := s.unplayed(m)
	for i := range s.Pots {
		list = append(list, w.mixedAt(&s.Pots[i]).Celsius())
	}
	return append(list, w.mixedAt(&Pot{MixedAt: 3600}).Celsius())
}

// TestWarmedByMixing: the rule of how warm a pot is when it is mixed. Parts have 21 °C. What was
// read is what was read. What was not is as much warmer than its parts as the mean of what was; only
// where nothing was read does the job say, and then a member may be off.
func TestWarmedByMixing(t *testing.T) {
	read := func(celsius float64) session.Event {
		return session.Event{Kind: session.Mixed, MassG: 300, IsC: &celsius}
	}
	unread := session.Event{Kind: session.Mixed, MassG: 200}
	for _, c := range []struct {
		what            string
		job             []string
		pots            []session.Event
		likely, warmest []float64 // in °C, the last of one to come
	}{
		{"by hand", nil, []session.Event{unread}, []float64{21, 21}, nil},
		{"by hand, one read", nil, []session.Event{read(25.5), unread}, []float64{25.5, 25.5, 25.5}, nil},
		{"by drill", byDrill, []session.Event{unread, unread}, []float64{24, 24, 24}, []float64{25.5, 25.5, 25.5}},
		{"by drill, one read", byDrill, []session.Event{unread, read(26)}, []float64{26, 26, 26}, nil},
		{"by drill, read with no rise", byDrill, []session.Event{unread, read(21)}, []float64{21, 21, 21}, nil},
		{"by drill, two read", byDrill, []session.Event{read(23), read(27), unread}, []float64{23, 27, 25, 25}, nil},
	} {
		d := newDay(daytest.Prepared(t, c.job...))
		for i, e := range c.pots {
			d.Add(float64(6*i), e)
		}
		s := d.script(t, 60)
		if c.warmest == nil { // nothing is left to a member
			c.warmest = c.likely
			for _, m := range ensemble.Prior(s.Task.Spread, 40, 1).Members {
				if m.Mixed != 0 {
					t.Errorf("%s: a member mixes %g K warmer", c.what, m.Mixed)
					break
				}
			}
		} else if !same(mixes(s, warmer()), c.warmest) {
			t.Errorf("%s: %v °C where resin is mixed 1.5 K warmer than expected, want %v", c.what, mixes(s, warmer()), c.warmest)
		}
		if got := mixes(s, ensemble.Nominal()); !same(got, c.likely) {
			t.Errorf("%s: %v °C, want %v", c.what, got, c.likely)
		}
	}
}

func same(a, b []float64) bool {
	for i := range a {
		if !(math.Abs(a[i]-b[i]) <= 1e-9) { // rounding
			return false
		}
	}
	return len(a) == len(b)
}

// TestReadMixGoesIntoTheBath: a pot begins at the temperature that was read in its cup, and a
// rest is planned with pots mixed as today's were.
func TestReadMixGoesIntoTheBath(t *testing.T) {
	d := newDay(daytest.Prepared(t, byDrill...)) // resin at 21 °C, room 23 °C
	read := 27.0
	d.Poured(0, d.Add(0, session.Event{Kind: session.Mixed, MassG: 300, IsC: &read}))
	d.Mixed(1, 200)
	s := d.script(t, 1)
	played, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	if got := world(t, d.script(t, 0)).Bath.Temperature.Celsius(); !(math.Abs(got-27) <= 1e-9) {
		t.Errorf("poured at once it has %g °C, not 27", got)
	}
	task := played.Begun(s.Standing()).Task
	if got := task.MixedAt(3600); !(math.Abs(got.Celsius()-27) <= 1e-9) {
		t.Errorf("the rest mixes at %v, not 27 °C", got)
	}
	if cups := task.Begin.Cups; len(cups) != 1 || !(math.Abs(task.PotMixedAt(&cups[0], ensemble.Nominal()).Celsius()-27) <= 1e-9) {
		t.Errorf("%+v stands, not one mixed at 27 °C", cups)
	}
}

// TestReadingsTellMixFromRate: a bath whose mixes were 4 K warmer than a drill's are expected, and
// whose resin is as quick as its data. Its thermometer, read from the minute it was filled, says so of
// the mix, to the kelvin that it leaves, and does not take the resin for quicker. A job that says
// that a hand mixes can only take it for something else.
func TestReadingsTellMixFromRate(t *testing.T) {
	day := func(job ...string) day {
		d := newDay(daytest.Prepared(t, job...))
		d.Fill(0, 300)
		return d
	}
	truth := ensemble.Nominal()
	truth.Mixed = 4
	minutes := []float64{5, 7, 10, 15, 25}
	var read []float64
	for _, at := range minutes {
		w, err := day(byDrill...).script(t, at).World(truth)
		if err != nil {
			t.Fatal(err)
		}
		read = append(read, w.Bath.Temperature.Celsius())
	}
	of := func(job ...string) (mixed, rate float64, explained bool) {
		d := day(job...)
		for i, at := range minutes {
			d.Temperature(at, read[i])
		}
		p, err := d.script(t, 26).Play()
		if err != nil {
			t.Fatal(err)
		}
		total := 0.0
		for _, m := range p.Cloud.Members {
			mixed, rate, total = mixed+m.Weight*m.Mixed, rate+m.Weight*math.Log(m.Rate), total+m.Weight
		}
		return mixed / total, rate / total, len(p.Doubts) == 0
	}
	mixed, rate, explained := of(byDrill...)
	t.Logf("read %.1f °C; mixed %.2f K warmer than expected, rate %+.3f", read, mixed, rate)
	if !(math.Abs(mixed-4) <= 1) || !(math.Abs(rate) <= 0.05) || !explained {
		t.Errorf("mixed %.2f K warmer than expected, want 4; ln of the rate %+.3f, want 0; explained %v", mixed, rate, explained)
	}
	if _, rate, explained := of(); explained && math.Abs(rate) <= 0.05 {
		t.Errorf("by hand all is explained with ln of the rate %+.3f: nothing is tested", rate)
	}
}
