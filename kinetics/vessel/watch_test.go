package vessel_test

import (
	"errors"
	"testing"

	"potlife/kinetics/ode"
	"potlife/kinetics/vessel"
)

// TestFreshWatchForgets: a clean bath is filled; what ended the last one is gone.
func TestFreshWatchForgets(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0.5, 23)
	w := vessel.NewWatch(b, usual(23))
	if _, _, err := w.Advance(s, 0, 24*hour, vessel.Tow{}); err != nil || !w.Ended() {
		t.Fatalf("not over after a day, %v", err)
	}
	_, first := w.End()
	w.Fresh()
	if by, _ := w.End(); w.Ended() || w.TooThick() || by != vessel.NoLimit {
		t.Errorf("a fresh watch is over by %q", by)
	}
	if _, _, err := w.Advance(s, 0, 24*hour, vessel.Tow{}); err != nil {
		t.Fatal(err)
	}
	if _, again := w.End(); again != first {
		t.Errorf("the same bath ends at %g s, then at %g s", float64(first), float64(again))
	}
}

// TestWatchInPieces: a life followed in short runs ends when one in one run does,
// to what Working precision gives a time.
func TestWatchInPieces(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0.5, 23)
	want := lifeOf(t, b, s, vessel.Tow{}, usual(23))
	w := vessel.NewWatch(b, usual(23))
	for now := 0 * minute; !w.Ended() && now < 10*hour; now += 7 * minute {
		var err error
		if s, _, err = w.Advance(s, now, now+7*minute, vessel.Tow{}); err != nil {
			t.Fatal(err)
		}
	}
	by, at := w.End()
	if by != want.EndsBy {
		t.Errorf("ends by %q, in one run by %q", by, want.EndsBy)
	}
	near(t, "life", float64(at), float64(want.Left), 1e-4)
}

// TestIntegrationThatFails: every way to follow a bath passes the error on. A
// state that is no number is the plainest.
func TestIntegrationThatFails(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0, 23)
	_, advance := b.Advance(s, 0, hour, vessel.Tow{})
	_, life := b.Life(s, 0, vessel.Tow{}, 0, usual(23), hour)
	_, milestones := b.Milestones(s, 0, hour)
	_, timeTo := b.TimeTo(vessel.EndPoint{Gel: true}, s, 0, hour)
	_, _, trace := b.Trace(s, 0, hour, minute, vessel.Tow{})
	for name, err := range map[string]error{"Advance": advance, "Life": life, "Milestones": milestones, "TimeTo": timeTo, "Trace": trace} {
		if !errors.Is(err, ode.ErrNotFinite) {
			t.Errorf("%s of no mass at all: %v, want %v", name, err, ode.ErrNotFinite)
		}
	}
}
