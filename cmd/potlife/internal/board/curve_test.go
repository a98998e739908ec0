package board_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
)

// TestCurveMeanwhile: the curve is drawn in the background, and while that takes its time the
// page is there without one; what is drawn is served, and after an event it is drawn anew.
func TestCurveMeanwhile(t *testing.T) {
	begin, drawings := make(chan struct{}, 2), 0
	s := newShop(t, func(c *board.Config) {
		c.Curve = func(time.Time) ([]byte, error) {
			<-begin
			drawings++ // one at a time, says the board
			return fmt.Appendf(nil, "<svg>%d</svg>", drawings), nil
		}
	})
	if page := s.get(""); page.status != http.StatusOK {
		t.Fatal(page)
	}
	if a := s.get("curve.svg"); a.status != http.StatusNotFound {
		t.Fatalf("not yet drawn, and served: %+v", a)
	}
	for n := 1; n <= 2; n++ {
		begin <- struct{}{}
		want := fmt.Sprintf("<svg>%d</svg>", n)
		for deadline := time.Now().Add(30 * time.Second); ; time.Sleep(10 * time.Millisecond) {
			if a := s.get("curve.svg"); a.status == http.StatusOK && strings.Contains(a.text, want) {
				break
			}
			if time.Now().After(deadline) {
				t.Fatalf("drawing %d does not come", n)
			}
		}
		s.pass(time.Minute) // two taps at once would be taken for one
		if status, o := s.tap(form(n, "mixed", "grams", "200")); status != http.StatusOK || !o.Logged {
			t.Fatalf("%d, %+v", status, o)
		}
	}
	begin <- struct{}{} // the last tap asks once more, and a board waits for its drawing when it ends
}
