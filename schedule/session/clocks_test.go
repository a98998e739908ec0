package session

import (
	"errors"
	"strings"
	"testing"
	"time"
)

// logAt logs an event that is said to have happened at a moment; zero: now.
func logAt(s *Session, kind Kind, at, now time.Time) (Event, error) {
	if at.IsZero() {
		at = now.Truncate(time.Second)
	}
	e := Event{Kind: kind, At: at, Logged: now}
	if kind == Mixed {
		e.MassG = 200
	}
	return s.Log(e)
}

// TestClockSetBack: what is said to happen now by a clock that is behind that of the last event is
// refused with the ways out, each of which works: take back what lies ahead, or say when it was by
// the clock that is ahead.
func TestClockSetBack(t *testing.T) {
	now := time.Time{}
	for _, kind := range []Kind{Poured, Mixed, Pause, Note, Finish} {
		s := newSession(t)
		if _, err := logAt(s, Mixed, now, after(65)); err != nil {
			t.Fatal(err)
		}
		_, err := logAt(s, kind, now, after(2))
		var refusal *Refusal
		if !errors.As(err, &refusal) || !strings.Contains(refusal.Problem, "clock says 09:02") || !strings.Contains(refusal.Problem, "e2, was at 10:05") ||
			!strings.Contains(refusal.Mend, "--at") || !strings.Contains(refusal.Mend, "undo") {
			t.Fatalf("%s, an hour back: %v", kind, err)
		}
		if e, err := logAt(s, kind, after(80), after(2)); err != nil || !e.At.Equal(after(80)) {
			t.Errorf("%s by the clock that is ahead: %v", kind, err)
		}
	}
	s := newSession(t)
	if _, err := logAt(s, Mixed, now, after(65)); err != nil {
		t.Fatal(err)
	}
	if _, err := logAt(s, Mixed, after(65).Add(longestDay+time.Minute), after(2)); err == nil || !strings.Contains(err.Error(), "not come yet") {
		t.Errorf("half a day after the last event: %v", err)
	}
	if _, err := s.Log(Event{Kind: Undo, At: after(2), Logged: after(2)}); err != nil {
		t.Fatal("undo:", err)
	}
	for _, kind := range []Kind{Mixed, Poured} {
		if e, err := logAt(s, kind, now, after(3)); err != nil || !e.At.Equal(after(3)) {
			t.Errorf("%s, the clock being right: %v", kind, err)
		}
	}
}

// TestClocksWithinAMinute: two machines whose clocks are a few seconds apart log one after the
// other, in that order.
func TestClocksWithinAMinute(t *testing.T) {
	for _, behind := range []time.Duration{time.Second, 30 * time.Second, farthestAhead} {
		s := newSession(t)
		if _, err := logAt(s, Mixed, time.Time{}, after(10)); err != nil {
			t.Fatal(err)
		}
		e, err := logAt(s, Poured, time.Time{}, after(10).Add(-behind))
		if err != nil || !e.At.Equal(after(10)) {
			t.Errorf("%v behind: poured at %v, %v", behind, e.At, err)
		}
	}
}

// TestStartAhead: a clock set back to before the start of the session is no event before it.
func TestStartAhead(t *testing.T) {
	s := newSession(t)
	if _, err := logAt(s, Mixed, time.Time{}, after(-600)); err == nil || !strings.Contains(err.Error(), "two clocks differ") {
		t.Errorf("ten hours before the start: %v", err)
	}
	if _, err := logAt(s, Mixed, after(-600), after(20)); err == nil || !strings.Contains(err.Error(), "2026-11-27 23:00 lies before the start") {
		t.Errorf("told to be ten hours before the start: %v", err)
	}
}

// TestDiffer: what was taken back lies nowhere, and of the rest the last counts.
func TestDiffer(t *testing.T) {
	all := []Event{
		{Seq: 1, Kind: Started, At: nine}, {Seq: 2, Kind: Mixed, At: after(70)}, {Seq: 3, Kind: Room, At: after(65)}, {Seq: 4, Kind: Note, At: after(500)}, {Seq: 5, Kind: Undo, Of: 4, At: after(1)},
	}
	for clock, want := range map[int]int{-10: 3, 1: 2, 64: 1, 66: 1, 69: 0, 70: 0, 300: 0} {
		c, differ := Differ(all, after(clock))
		if c.Events != want || differ != (want > 0) || c.Seq != 2 || !c.Last.Equal(after(70)) || c.By() != after(70).Sub(after(clock)) {
			t.Errorf("after %d min: %+v, want %d events", clock, c, want)
		}
	}
}

// TestAtLast: the time of the last event that stands, whatever the clock says; without events it
// is no time.
func TestAtLast(t *testing.T) {
	all := []Event{{Seq: 1, Kind: Started, At: nine}, {Seq: 2, Kind: Mixed, At: after(70)}, {Seq: 3, Kind: Note, At: after(80)}, {Seq: 4, Kind: Undo, Of: 3}}
	if at, err := ReadAt(LastEvent, all, after(1), nine.Location()); err != nil || !at.Equal(after(70)) {
		t.Errorf("%v, %v", at, err)
	}
	if at, err := ReadAt(LastEvent, nil, after(1), nine.Location()); err == nil {
		t.Errorf("of no events: %v", at)
	}
}

// TestNotComeYet: the day is named where it is not today's, and yesterday only where that helps.
func TestNotComeYet(t *testing.T) {
	s := newSession(t)
	for minutes, c := range map[int]struct {
		says      string
		yesterday bool
	}{120: {"11:00 has not come yet: this machine's clock says 09:05", true}, 60 * 24 * 400: {"2028-01-02 09:00 has not come yet", false}} {
		_, err := logAt(s, Note, after(minutes), after(5))
		if err == nil || !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "yesterday") != c.yesterday {
			t.Errorf("%d min ahead: %v", minutes, err)
		}
	}
}
