package hazard

import (
	"math"
	"reflect"
	"runtime"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
	"potlife/schedule/session/replay"
)

// found are the hazards of a day at a minute; a pot that waits is used as many minutes later.
func found(t *testing.T, d *daytest.Day, minutes, used float64, over bool) []Hazard {
	t.Helper()
	j := replay.Journal{Winding: d.W, Events: d.Events, Started: d.Clock(0)}
	s, err := j.Script(d.Clock(minutes), 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.PlayWith(60, 1)
	if err != nil {
		t.Fatal(err)
	}
	cups := map[int]*replay.CupNow{}
	for _, pot := range s.Standing() {
		if cups[pot.Seq], err = p.Cup(&pot, 48*3600); err != nil {
			t.Fatal(err)
		}
	}
	list, err := Of(p, cups, func(*replay.Pot) (quantity.Time, bool) { return p.Now() + quantity.Time(60*used), !math.IsNaN(used) }, over)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) > 0 && !over && !Possible(p) {
		t.Errorf("after %.0f min there are hazards where none are possible", minutes)
	}
	return list
}

// TestStages: resin is staged by what it is now, or by a reading, and what cannot run away or is
// used before is no hazard. What became of it ends it.
func TestStages(t *testing.T) {
	w := daytest.Prepared(t)
	const (
		day   = 24 * 60 // min: whatever ran away has cooled
		large = 450     // g, in a cup and in the bath
		small = 30
	)
	never, unknown := math.Inf(1), math.NaN()
	pot := func(grams float64) func(d *daytest.Day) { return func(d *daytest.Day) { d.Mixed(0, grams) } }
	bath := func(d *daytest.Day) { d.Fill(0, large) }
	read := func(celsius ...float64) func(d *daytest.Day) {
		return func(d *daytest.Day) {
			bath(d)
			for i, c := range celsius {
				d.Temperature(10+float64(i), c)
			}
		}
	}
	for _, c := range []struct {
		name    string
		of      func(d *daytest.Day)
		minutes float64
		used    float64 // min from now
		over    bool
		stage   Stage
		why     Why
		reading bool
	}{
		{"a pot that is poured at once", pot(large), 6, 0, false, None, "", false},
		{"a pot of which no plan says when", pot(large), 6, unknown, false, None, "", false},
		{"a pot that is not used", pot(large), 6, never, false, Liquid, RunsAway, false},
		{"a pot that is used too late", pot(large), 6, 300, false, Liquid, RunsAway, false},
		{"a small pot that is not used", pot(small), 6, never, false, None, "", false},
		{"a pot that has set and cooled", pot(large), day, never, false, Set, Gelled, false},
		{"a small pot that has set", pot(small), day, never, false, None, "", false},
		{"a bath", bath, 12, never, false, None, "", false},
		{"a bath from which nothing is wound", bath, 12, never, true, Liquid, RunsAway, false},
		{"a bath read over its limit", read(52), 12, never, false, Liquid, OverLimit, true},
		{"a bath read too hot to touch", read(52, 61), 12, never, false, Set, Hot, true},
		{"a bath misread before", read(52, 24), 12, never, false, None, "", false},
		{"a bath that has set", bath, day, never, false, Set, Gelled, false},
	} {
		d := daytest.New(w)
		c.of(d)
		list := found(t, d, c.minutes, c.used, c.over)
		if c.stage == None {
			if len(list) > 0 {
				t.Errorf("%s: %+v, want no hazard", c.name, list)
			}
			continue
		}
		if len(list) != 1 || list[0].Stage != c.stage || list[0].Why != c.why || (list[0].Reading > 0) != c.reading {
			t.Errorf("%s: %+v, want stage %d, %s", c.name, list, c.stage, c.why)
			continue
		}
		h := &list[0]
		if spread := h.Depth > 0 && h.Side > 0; spread != (c.stage == Liquid) || !(h.Peak >= h.Hottest) {
			t.Errorf("%s: spread %v in %v, %v now and %v to come", c.name, h.Depth, h.Side, h.Hottest, h.Peak)
		}
		for _, how := range []session.Kind{session.Spread, session.ThrownOut, session.Cured} {
			gone := &daytest.Day{W: w, Events: d.Events[:len(d.Events):len(d.Events)]}
			gone.Removed(c.minutes, how, h.Pot.Seq)
			if list := found(t, gone, c.minutes, c.used, c.over); len(list) > 0 {
				t.Errorf("%s, and %s: %+v", c.name, how, list)
			}
		}
	}
}

// TestWorstFirst: what nobody touches stands before what can be spread, and the one that sets
// sooner before the other.
func TestWorstFirst(t *testing.T) {
	d := daytest.New(daytest.Prepared(t))
	later := d.Mixed(24*60-5, 200)
	sooner := d.Mixed(24*60-4, 500)
	set := d.Mixed(0, 450)
	var seqs []int
	for _, h := range found(t, d, 24*60+2, math.Inf(1), false) {
		seqs = append(seqs, h.Pot.Seq)
	}
	if len(seqs) != 3 || seqs[0] != set || seqs[1] != sooner || seqs[2] != later {
		t.Errorf("in the order %v, want %d, %d, %d", seqs, set, sooner, later)
	}
}

// TestPotsTogether: pots that are looked at together are the same hazards, in the same order, as on one processor.
func TestPotsTogether(t *testing.T) {
	d := daytest.New(daytest.Prepared(t))
	for k := range 6 {
		d.Mixed(float64(k), 300+20*float64(k%4))
	}
	on := func(processors int) []Hazard {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		return found(t, d, 30, math.Inf(1), false)
	}
	alone, together := on(1), on(4)
	if len(alone) != 6 || !reflect.DeepEqual(alone, together) {
		t.Errorf("on one processor %+v, on several %+v", alone, together)
	}
}
