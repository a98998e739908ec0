package board_test

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

// TestBoardsClockIsBehind: where others have logged by a clock that is ahead of the board's, the
// page says so before everything, shows no minutes and asks for no pot; taps, which know no other
// clock than the board's, are refused with the ways out, until the clock is right.
func TestBoardsClockIsBehind(t *testing.T) {
	s := newShop(t, nil)
	s.pass(64 * time.Minute)
	for i, do := range []string{"mixed", "poured e2", "begin 1"} {
		if status, o := s.tap(form(i+1, do, "grams", "239.3")); status != http.StatusOK {
			t.Fatalf("%s: %d, %+v", do, status, o)
		}
		s.pass(3 * time.Minute)
	}
	s.pass(-69 * time.Minute)
	page := s.get("").text
	for _, says := range []string{`class="ask">CLOCKS DIFFER: 3 events lie up to 66 min ahead`, "MIX NOTHING", "before the clocks agree", `data-alarm="over"`, "layer 1 of", "the clocks differ"} {
		if !strings.Contains(strings.ToLower(page), strings.ToLower(says)) {
			t.Errorf("the page does not say %q", says)
		}
	}
	for _, not := range []string{"FILL", "no resin", "next pot:", "surely until", "surely left", "CARRY ON", " tap due"} {
		if strings.Contains(page, not) {
			t.Errorf("the page says %q", not)
		}
	}
	for i, c := range [][]string{{"done 1"}, {"mixed", "grams", "100"}, {"pause tow broke"}, {"mixed", "grams", "100", "ago", "10"}, {"room", "room", "22", "ago", "10"}} {
		status, o := s.tap(form(10+i, c[0], c[1:]...))
		if status != http.StatusConflict || o.Logged || !strings.Contains(o.Text, "two clocks differ") || !strings.Contains(o.Text, "set the clock") {
			t.Errorf("%v: %d, %+v", c, status, o)
		}
	}
	s.pass(80 * time.Minute)
	if page := s.get("").text; strings.Contains(page, "CLOCKS DIFFER") || strings.Contains(page, "MIX NOTHING") {
		t.Error("the clock is set, and the page still says that it is wrong")
	}
	if status, o := s.tap(form(30, "done 1")); status != http.StatusOK || !o.Logged {
		t.Errorf("the clock is set: %d, %+v", status, o)
	}
}
