package advice

import (
	"math"
	"slices"
	"testing"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/replay"
)

// asOf answers for a moment that was asked about, or for now by a clock, at the same minute.
func (d day) asOf(t *testing.T, when, clock float64, asked bool) *Answer {
	t.Helper()
	j := replay.Journal{Winding: d.W, Events: d.Events, Started: d.Clock(0)}
	s, err := j.AsOf(d.Clock(when), asked, d.Clock(clock), 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	a, err := Now(p)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func warnsOfClocks(a *Answer) bool {
	return slices.ContainsFunc(a.Warnings[:a.Urgent], func(w warning.Warning) bool { return w.Code() == session.ClocksDiffer{}.Code() })
}

// TestClocksDiffer: by a clock that is behind the events no answer orders a pot or promises a
// minute, whatever was logged by the clock that is ahead; one that asks about the last event is answered in full with a warning.
func TestClocksDiffer(t *testing.T) {
	steps := []func(d day){
		func(d day) { d.Mixed(65, 300) },
		func(d day) { d.Poured(68, 2) },
		func(d day) { d.Begin(69, 1) },
		func(d day) { d.Pause(70) },
		func(d day) { d.Resume(75) },
		func(d day) { d.Done(90, 1) },
		func(d day) { d.Changed(95) },
		func(d day) { d.Note(100, "nobody knows the time") },
	}
	d := newDay(prepared(t))
	for i, step := range steps {
		step(d)
		last := d.Last()
		for _, clock := range []float64{-600, last - 1.1} {
			a := d.asOf(t, clock, clock, false)
			if a.Rule != ClocksDiffer || a.Advice != SetClock || a.MachineAdvice == CarryOn || a.MachineAdvice == TopUp || a.MachineAdvice == Change ||
				a.Pour.Needed() || a.Next != nil || a.LeftSure != 0 || a.StoppedSure != 0 || !math.IsNaN(float64(a.ActBefore)) || !warnsOfClocks(a) {
				t.Errorf("step %d, the clock at %.0f: %s", i, clock, a.say())
			}
			if filled := i > 0 && i < 6; a.Filled != filled {
				t.Errorf("step %d: filled is %v", i, a.Filled)
			}
			for _, g := range a.Goals {
				if g.Fits {
					t.Errorf("step %d: layer %d is said to fit", i, g.Layer)
				}
			}
		}
		// A moment of before the last event is as little known.
		if a := d.asOf(t, last-1, 5, true); a.Rule != ClocksDiffer {
			t.Errorf("step %d, asked about a minute before the last event: %s", i, a.say())
		}
		now := d.ask(t, last, 0)
		if warnsOfClocks(now) {
			t.Errorf("step %d, clocks that agree: %s", i, now.say())
		}
		a := d.asOf(t, last, 5, true)
		if a.Rule != now.Rule || a.StoppedSure != now.StoppedSure || a.Pour.Goals != now.Pour.Goals || !warnsOfClocks(a) {
			t.Errorf("step %d, at the last event: %s; by a clock that agrees: %s", i, a.say(), now.say())
		}
	}
}

// TestClocksWithinAMinute: what another machine logged a moment ahead of this one's clock has
// happened.
func TestClocksWithinAMinute(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(5, 300)
	a := d.asOf(t, d.Last()-0.9, d.Last()-0.9, false)
	if !a.Filled || a.Rule == ClocksDiffer || a.Rule == EmptyBath || warnsOfClocks(a) {
		t.Error(a.say())
	}
}

// TestHazardBeforeClocks: what was dangerous by the last event comes first, and stops the machine.
func TestHazardBeforeClocks(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(5, 300)
	d.Begin(11, 1)
	d.Temperature(65, 75)
	for _, clock := range []float64{-60, 30} {
		a := d.asOf(t, clock, clock, false)
		if a.Situation.BathHazard == hazard.None || a.Advice != KeepAway && a.Advice != Spread || a.MachineAdvice != Stop || !a.Situation.Ahead || a.Pour.Needed() {
			t.Errorf("the clock at %.0f: %s", clock, a.say())
		}
	}
}

// TestFinishedWhateverTheClock: a day that is over and has no resin left is answered as it was.
func TestFinishedWhateverTheClock(t *testing.T) {
	d := newDay(prepared(t))
	d.Fill(5, 300)
	d.Removed(20, session.ThrownOut, 0)
	d.Finish(30)
	for left, want := range map[bool]Rule{false: DayOver, true: ClocksDiffer} {
		j := replay.Journal{Winding: d.W, Events: d.Events, Started: d.Clock(0), Ended: d.Clock(30), ResinLeft: left}
		s, err := j.AsOf(d.Clock(30), false, d.Clock(-60), time.Duration(0))
		if err != nil {
			t.Fatal(err)
		}
		p, err := s.Play()
		if err != nil {
			t.Fatal(err)
		}
		if a, err := Now(p); err != nil || a.Rule != want {
			t.Errorf("resin left %v: %s, %v; want %s", left, a.Rule, err, want)
		}
	}
}
