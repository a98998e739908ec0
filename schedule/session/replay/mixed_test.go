package replay

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

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
	drill := []string{"mixing: 5 min", "mixing: {time: 5 min, by: drill}"}
	for _, c := range []struct {
		what            string
		job             []string
		pots            []session.Event
		likely, warmest []float64 // in °C, the last of one to come
	}{
		{"by hand", nil, []session.Event{unread}, []float64{21, 21}, nil},
		{"by hand, one read", nil, []session.Event{read(25.5), unread}, []float64{25.5, 25.5, 25.5}, nil},
		{"by drill", drill, []session.Event{unread, unread}, []float64{24, 24, 24}, []float64{25.5, 25.5, 25.5}},
		{"by drill, one read", drill, []session.Event{unread, read(26)}, []float64{26, 26, 26}, nil},
		{"by drill, read with no rise", drill, []session.Event{unread, read(21)}, []float64{21, 21, 21}, nil},
		{"by drill, two read", drill, []session.Event{read(23), read(27), unread}, []float64{23, 27, 25, 25}, nil},
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
	d := newDay(daytest.Prepared(t, "mixing: 5 min", "mixing: {time: 5 min, by: drill}")) // resin at 21 °C, room 23 °C
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
