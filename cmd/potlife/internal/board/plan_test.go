package board_test

import (
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/schedule/session"
)

// TestTapAsksAboutThePlan: every tap that was logged is asked about once, in order and behind
// the tap; what was refused is not.
func TestTapAsksAboutThePlan(t *testing.T) {
	asked := make(chan session.Event, 10)
	s := newShop(t, func(c *board.Config) { c.Renew = func(e session.Event) { asked <- e } })
	s.tap(form(1, "mixed", "grams", "239.3"))
	s.pass(time.Minute)
	s.tap(form(2, "begin 9"))
	s.tap(form(3, "poured e2"))
	s.tap(form(3, "poured e2")) // the same tap again
	for _, kind := range []session.Kind{session.Mixed, session.Poured} {
		select {
		case e := <-asked:
			if e.Kind != kind || e.Seq == 0 {
				t.Errorf("asked about %s, event %d, want %s", e.Kind, e.Seq, kind)
			}
		case <-time.After(10 * time.Second):
			t.Fatalf("nobody asks about %s", kind)
		}
	}
	select {
	case e := <-asked:
		t.Errorf("asked again about %s", e.Kind)
	default:
	}
}
