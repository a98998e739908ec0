package board_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// TestHazardFirst: a hazard stands above all else with what can have become of it; what is
// liquid is to be spread, what has set is left alone; and while it stands the page has no grams
// to be mixed.
func TestHazardFirst(t *testing.T) {
	var stand atomic.Value
	stand.Store([]report.Hazard(nil))
	s := newShop(t, func(c *board.Config) {
		look := c.Look
		c.Look = func(now time.Time) (*report.Check, error) {
			a, err := look(now)
			if err == nil {
				a.Hazards, a.First = stand.Load().([]report.Hazard), nil
				for _, h := range a.Hazards {
					a.First = append(a.First, h.Text)
				}
			}
			return a, err
		}
	})
	if calm := s.get("").text; strings.Count(calm, "g resin") < 3 || strings.Contains(calm, `class="danger"`) {
		t.Fatal("on a calm page order, button and keys do not speak of resin to be weighed: nothing is tested")
	}
	for _, stage := range []string{"liquid", "set"} {
		stand.Store([]report.Hazard{{What: "pot", Pot: 2, PotNumber: 1, Stage: stage, Text: "Pot 1 is hot: look."}})
		s.pass(10 * time.Second) // the answer is worked out anew
		page := s.get("").text
		danger := strings.Index(page, "Pot 1 is hot: look.")
		order := strings.Index(page, `class="do"`)
		if !(danger > 0 && danger < order) || strings.Contains(page, `class="left`) {
			t.Errorf("%s: the hazard stands at %d, the order at %d; no figure belongs beside it", stage, danger, order)
		}
		for _, tap := range []string{"spread e2", "thrown-out e2", "cured e2"} {
			if n := strings.Count(page[:order], `value="`+tap+`"`); n != 1 {
				t.Errorf("%s: there are %d buttons %s above the order, want 1", stage, n, tap)
			}
		}
		if next := value(page, "next"); next != map[string]string{"liquid": "spread e2", "set": ""}[stage] {
			t.Errorf("%s: the bar sends %q", stage, next)
		}
		if !strings.Contains(page, `data-alarm="dangerous"`) || !strings.Contains(page, "<title>DANGER") {
			t.Errorf("%s: the alarm does not say so", stage)
		}
		for _, grams := range []string{"g resin", "g hardener", "Next pour"} {
			if strings.Contains(page, grams) {
				t.Errorf("%s: the page still says %q", stage, grams)
			}
		}
	}
}

// TestTapGone: what became of a pot or of the bath is logged by its button, once, and also
// after the finish; the page has such buttons for all resin that there is, and no other.
func TestTapGone(t *testing.T) {
	s := newShop(t, nil)
	offered := func() []string {
		var list []string
		page := between(s.get("").text, `id="away"`, "</details>")
		for _, part := range strings.Split(page, `value="`)[1:] {
			list = append(list, part[:strings.Index(part, `"`)])
		}
		return list
	}
	for i, c := range []struct {
		do     string
		offers []string // the first button of each
	}{
		{"mixed", []string{"spread e2"}},
		{"poured e2", []string{"spread bath"}},
		{"mixed", []string{"spread bath", "spread e4"}},
		{"spread e4", []string{"spread bath"}},
		{"mixed", []string{"spread bath", "spread e6"}},
		{"thrown-out bath", []string{"spread e6"}},
		{"cured e6", nil},
	} {
		s.pass(10 * time.Second)
		if _, o := s.tap(form(i, c.do, "grams", "200")); !o.Logged {
			t.Fatalf("%s: %+v", c.do, o)
		}
		var first []string
		for j, tap := range offered() {
			if j%3 == 0 {
				first = append(first, tap)
			}
		}
		if !slices.Equal(first, c.offers) {
			t.Errorf("after %q there are buttons for %q, want %q", c.do, first, c.offers)
		}
	}
	for i, do := range []string{"spread", "spread e6", "cured bath", "thrown-out e77"} {
		s.pass(10 * time.Second)
		if status, o := s.tap(form(100+i, do)); o.Logged || status != http.StatusConflict {
			t.Errorf("%s: %d, %+v", do, status, o)
		}
	}
	var kinds []string
	for _, e := range s.events() {
		if e.Kind.Removes() {
			kinds = append(kinds, fmt.Sprint(e.Kind, " ", e.Bath, " ", e.Pot))
		}
	}
	if want := []string{"spread false 4", "thrown-out true 0", "cured false 6"}; !slices.Equal(kinds, want) {
		t.Errorf("logged: %q, want %q", kinds, want)
	}
}

// TestAfterFinish: resin that is left when the session is finished still has its buttons.
func TestAfterFinish(t *testing.T) {
	s := newShop(t, nil)
	for i, do := range []string{"mixed", "poured e2"} {
		s.pass(10 * time.Second)
		s.tap(form(i, do, "grams", "200"))
	}
	opened, err := session.OpenFolder(s.folder)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	if _, err := opened.Log(session.Event{Kind: session.Finish, At: s.pass(time.Minute), Logged: s.clock()}); err != nil {
		t.Fatal(err)
	}
	page := s.get("").text
	if next := value(page, "next"); next != "left-over" {
		t.Errorf("with resin in the bath the bar sends %q", next)
	}
	if why := between(page, `data-note="begin">`, "<"); why != "the session is finished" {
		t.Errorf("a layer can be begun: %q", why)
	}
	for i, do := range []string{"left-over", "spread bath"} {
		s.pass(10 * time.Second)
		if _, o := s.tap(form(10+i, do, "left", "150")); !o.Logged {
			t.Errorf("%s: %+v", do, o)
		}
	}
	if page := s.get("").text; !strings.Contains(between(page, `data-note="next">`, "/"), "the session is finished") {
		t.Errorf("with nothing left the bar says %q", between(page, `data-note="next">`, "<"))
	}
}

// TestAsksFirst: what the crew is asked for stands before the figure and its order, and is none
// of the hazards' sentences.
func TestAsksFirst(t *testing.T) {
	s := newShop(t, func(c *board.Config) {
		look := c.Look
		c.Look = func(now time.Time) (*report.Check, error) {
			a, err := look(now)
			if err == nil {
				a.Hazards, a.First = nil, []string{"LOG WHAT HAPPENED since 09:00."}
			}
			return a, err
		}
	})
	page := s.get("").text
	ask, figure := strings.Index(page, `<p class="ask">LOG WHAT HAPPENED since 09:00.`), strings.Index(page, `class="left`)
	if !(ask > 0 && ask < figure) || strings.Contains(page, `class="danger"`) {
		t.Errorf("it is asked at %d, the figure stands at %d", ask, figure)
	}
}
