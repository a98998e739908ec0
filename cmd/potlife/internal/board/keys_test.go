package board_test

import (
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// begins is what the page shows as the beginning of a field.
func begins(page, name string) string {
	return strings.TrimSpace(between(between(page, `id="in-`+name+`"`, ">"), `placeholder="`, `"`))
}

// TestKeysBegin: a reading's keys begin with the last one of the same thermometer or cup that
// stands, and with nothing where there is none; no field holds anything yet.
func TestKeysBegin(t *testing.T) {
	s := newShop(t, nil)
	page := s.get("").text
	for _, name := range []string{"temp", "seconds", "room", "left"} {
		if from := begins(page, name); from != "" {
			t.Errorf("%s begins with %q, and nothing was read", name, from)
		}
	}
	for i, tap := range []url.Values{
		form(1, "mixed", "grams", "400"), form(2, "poured e2"),
		form(3, "bath-temp", "temp", "24,5"), form(4, "room", "room", "19"), form(5, "left-over", "left", "310"),
		form(6, "flow-cup", "cup", "zahn-5", "seconds", "31"), form(7, "flow-cup", "cup", "zahn-4", "seconds", "55.5"),
		form(8, "bath-temp", "temp", "29"), form(9, "undo e9"),
	} {
		s.pass(10 * time.Second)
		if _, o := s.tap(tap); !o.Logged {
			t.Fatalf("tap %d: %+v", i, o)
		}
	}
	page = s.get("").text
	for name, want := range map[string]string{"temp": "24.5", "seconds": "55.5", "room": "19", "left": "310"} {
		if from := begins(page, name); from != want {
			t.Errorf("%s begins with %q, want %q", name, from, want)
		}
	}
	if from := begins(s.get("?cup=zahn-5").text, "seconds"); from != "31" {
		t.Errorf("another cup begins with %q, want its own last seconds, 31", from)
	}
	if from := begins(s.get("?cup=iso-6").text, "seconds"); from != "" {
		t.Errorf("a cup that was never used begins with %q", from)
	}
	if !strings.Contains(page, "last 24.5 °C, 09:01") {
		t.Error("the page does not say which reading the bath's keys begin with")
	}
}

// TestKeysPressed: without scripts, keys step from what a field begins with and type digits
// into an empty one, and nothing that a field cannot hold comes in.
func TestKeysPressed(t *testing.T) {
	s := newShop(t, nil)
	s.tap(form(1, "mixed", "grams", "400"))
	s.pass(time.Minute)
	s.tap(form(2, "poured e2"))
	s.tap(form(3, "bath-temp", "temp", "24.5"))
	for _, c := range []struct{ query, want string }{
		{"nudge=temp:0.5", "25"},
		{"nudge=temp:-0.5&temp=", "24"},
		{"nudge=temp:-0.5&temp=0.2", "0"},
		{"nudge=temp:=3", "3"},
		{"nudge=temp:=.&temp=31", "31."},
		{"nudge=temp:=5&temp=31.", "31.5"},
		{"nudge=temp:=5&temp=31.5", "31.5"},
		{"nudge=temp:=%3C&temp=31.", "31"},
		{"nudge=temp:=%3C&temp=3", ""},
		{"nudge=temp:1e300&temp=3", "3"},
		{"nudge=temp:NaN&temp=3", "3"},
		{"nudge=room:1", ""},
		{"nudge=room:=1&temp=-3", ""},
		{"nudge=what:=1&temp=0x1p4", ""},
	} {
		a := s.get("?" + c.query)
		if a.status != http.StatusSeeOther {
			t.Fatalf("%s: status %d", c.query, a.status)
		}
		to, err := url.Parse(a.location)
		if err != nil {
			t.Fatal(err)
		}
		if got := to.Query().Get("temp"); got != c.want {
			t.Errorf("%s leads to %s: %q, want %q", c.query, a.location, got, c.want)
		}
	}
	page := s.get("?temp=31.5&keys=temp").text
	if !strings.Contains(page, `id="temp" open`) || !strings.Contains(page, "31.5 °C</span>") {
		t.Error("the page after a key shows its field shut, or its button not what it sends")
	}
}

// TestPotsGrams: the grams are those of the pot that comes next, with both parts to be
// weighed; where none is known there are none, and an untouched button logs what it showed.
func TestPotsGrams(t *testing.T) {
	var answer *report.Check
	s := newShop(t, func(c *board.Config) {
		look := c.Look
		c.Look = func(now time.Time) (*report.Check, error) {
			a, err := look(now)
			if answer != nil && err == nil {
				a.Mix, a.Next = answer.Mix, answer.Next
			}
			return a, err
		}
	})
	pot := report.Parts{ResinG: 96.7, HardenerG: 23.3}
	for _, c := range []struct {
		answer      report.Check
		begins, say string
	}{
		{report.Check{Mix: []report.Parts{pot, {ResinG: 50, HardenerG: 12}}}, "120", "pot 1: 96.7 g resin + 23.3 g hardener"},
		{report.Check{Next: &report.NextPour{Mix: []report.Parts{pot}}}, "120", "pot 1: 96.7 g resin + 23.3 g hardener"},
		{report.Check{Next: &report.NextPour{PourCups: []int{2}}}, "", "pot 1: key in its grams"},
		{report.Check{}, "", "pot 1: key in its grams"},
	} {
		answer = &c.answer
		s.pass(10 * time.Second) // the answer is worked out anew
		page := s.get("").text
		if from, says := begins(page, "grams"), html.UnescapeString(between(page, `data-note="mixed">`, "<")); from != c.begins || says != c.say {
			t.Errorf("grams begin with %q, the button says %q; want %q, %q", from, says, c.begins, c.say)
		}
		if next := between(page, `name="next" value="`, `"`); next != c.begins {
			t.Errorf("an untouched tap sends %q, want %q", next, c.begins)
		}
	}
	if _, o := s.tap(form(1, "mixed", "grams", "", "next", "")); o.Logged {
		t.Errorf("a pot without grams: %+v", o)
	}
	if _, o := s.tap(form(2, "mixed", "grams", "", "next", "120")); !o.Logged || s.events()[1].MassG != 120 {
		t.Errorf("an untouched pot of 120 g: %+v", o)
	}
	if page := s.get("").text; between(page, `data-note="poured">`, "<") != "pot 1, 120 g" {
		t.Errorf("the pot that stands is shown as %q", between(page, `data-note="poured">`, "<"))
	} else if !strings.Contains(page, "mixed already: pot 1, 120 g") {
		t.Error("the grams' keys do not say which pot stands")
	}
}

// TestTapAgo: what was forgotten is logged as of ten minutes ago, where that can be; undo is
// of now.
func TestTapAgo(t *testing.T) {
	s := newShop(t, nil)
	if _, o := s.tap(form(1, "mixed", "grams", "200", "ago", "10")); o.Logged || !strings.Contains(o.Text, "before the start") {
		t.Errorf("ten minutes before 09:01, the session began at nine: %+v", o)
	}
	s.pass(20 * time.Minute)
	if _, o := s.tap(form(2, "mixed", "grams", "200", "ago", "10")); !o.Logged || o.At != "09:11:00" {
		t.Errorf("ten minutes before 09:21: %+v", o)
	}
	s.pass(time.Minute)
	if _, o := s.tap(form(3, "poured e2", "ago", "11")); !o.Logged || o.At != "09:22:00" {
		t.Errorf("there is no button of eleven minutes: %+v", o)
	}
	if _, o := s.tap(form(4, "undo e3", "ago", "10")); !o.Logged || o.At != "09:22:00" {
		t.Errorf("an undo: %+v", o)
	}
	s.pass(time.Minute)
	if _, o := s.tap(form(5, "poured e2", "ago", "10")); !o.Logged || o.At != "09:13:00" {
		t.Errorf("poured ten minutes ago: %+v", o)
	}
	for _, e := range s.events() {
		if want := e.Logged.Add(-10 * time.Minute); (e.Seq == 2 || e.Seq == 5) && !e.At.Equal(want) {
			t.Errorf("%s happened at %v, want %v", e.Kind, e.At, want)
		}
		if e.Kind == session.Undo && !e.At.Equal(e.Logged) {
			t.Errorf("the undo happened at %v", e.At)
		}
	}
	if page := s.get("?ago=10").text; !strings.Contains(page, `name="ago" value="10" checked`) {
		t.Error("a key pressed in between turns it off")
	}
	if page := s.get("").text; strings.Contains(page, "checked") {
		t.Error("it is on by itself")
	}
}
