package board_test

import (
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/schedule/session"
)

// TestPotOffItsRatio: in its cup it is not to be poured, and in the bath the page says so
// beside the order.
func TestPotOffItsRatio(t *testing.T) {
	logged := func(cfg *board.Config, events ...session.Event) {
		t.Helper()
		s, err := session.OpenFolder(cfg.Folder)
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		for _, e := range events {
			e.Logged = e.At
			if _, err := s.Log(e); err != nil {
				t.Fatal(err)
			}
		}
	}
	bad := session.Event{Kind: session.Mixed, At: nine.Add(10 * time.Second), ResinG: 40.3, HardenerG: 168.2} // less than could run away in the bath
	poured := session.Event{Kind: session.Poured, At: nine.Add(20 * time.Second), Pot: 2}
	const beside = "<strong>Look again:</strong> pot 1 in the bath"

	cup := newShop(t, func(cfg *board.Config) { logged(cfg, bad) }).get("").text
	for _, want := range []string{"off its ratio, do not pour it", ", off its ratio: do not pour", "do not pour pot 1"} {
		if !strings.Contains(cup, want) {
			t.Errorf("in its cup the page does not say %q", want)
		}
	}
	if strings.Contains(cup, "past use") || strings.Contains(cup, beside) {
		t.Error("in its cup the page tells what is not so")
	}
	bath := newShop(t, func(cfg *board.Config) { logged(cfg, bad, poured) }).get("").text
	if strings.Count(bath, beside) != 1 || !strings.Contains(bath, "<strong>CHANGE</strong>") {
		t.Error("in the bath the page does not tell it once, beside the order to change it")
	}
}

// TestTappedTwice: a pot that is told again on another page is asked about.
func TestTappedTwice(t *testing.T) {
	s := newShop(t, nil)
	if _, o := s.tap(form(1, "mixed", "grams", "100", "seen", "1")); !o.Logged || strings.Contains(o.Text, "twice") {
		t.Errorf("%+v", o)
	}
	s.pass(time.Minute)
	if _, o := s.tap(form(2, "mixed", "grams", "100", "seen", "2")); !o.Logged || !strings.Contains(o.Text, "Look again: e2 says the same: logged twice?") {
		t.Errorf("%+v", o)
	}
}
