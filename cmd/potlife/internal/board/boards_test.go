package board_test

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/schedule/session"
)

// anotherBoard serves the session of a shop once more, as a second laptop does or the same one
// after a restart.
func anotherBoard(s *shop) *shop {
	other := newShop(s.t, func(cfg *board.Config) { cfg.Folder, cfg.Look, cfg.Now = s.folder, look(s.folder), s.clock })
	other.folder = s.folder
	return other
}

// TestTwoBoardsTogether: a pot that is logged by two boards at once, of pages that have not seen
// each other, is one; the other is refused with what was logged.
func TestTwoBoardsTogether(t *testing.T) {
	one := newShop(t, nil)
	two := anotherBoard(one)
	for round := range 5 {
		one.pass(time.Minute)
		seen := "1"
		if round > 0 {
			seen = string(rune('1' + round))
		}
		var wait sync.WaitGroup
		var logged [2]bool
		for i, s := range []*shop{one, two} {
			wait.Go(func() {
				status, o := s.tap(form(10*round+i, "mixed", "grams", "200", "seen", seen))
				if logged[i] = o.Logged; !o.Logged && (status != http.StatusConflict || !strings.Contains(o.Text, "meanwhile pot") || !strings.Contains(o.Text, "of 200 g was logged at")) {
					t.Errorf("%d, %+v", status, o)
				}
			})
		}
		wait.Wait()
		if logged[0] == logged[1] {
			t.Fatalf("round %d: logged by both, or by none: %v", round, logged)
		}
	}
	if n := len(one.events()); n != 6 {
		t.Errorf("%d events, want the start and five pots", n)
	}
}

// TestAskedBeforeItCame: a tap of which a page was told that nothing was logged is refused when it
// arrives after all, by the same board, another one and the next; and so is what was refused.
func TestAskedBeforeItCame(t *testing.T) {
	s := newShop(t, nil)
	late := form(7, "mixed", "grams", "200", "seen", "1")
	for range 2 {
		if a := s.get("tap?key=" + late.Get("key") + "-mixed"); !strings.Contains(a.text, `"known":false`) || a.status != http.StatusOK {
			t.Errorf("asked for: %+v", a)
		}
	}
	begin := form(8, "begin 1")
	_, refused := s.tap(begin)
	boards := map[string]*shop{"the same": s, "another": anotherBoard(s)}
	for name, b := range boards {
		if status, o := b.tap(late); status != http.StatusConflict || o.Logged || !strings.Contains(o.Text, "nothing was logged") {
			t.Errorf("%s: a tap that was given up: %d, %+v", name, status, o)
		}
	}
	s.tap(form(9, "mixed", "grams", "300", "seen", "1"))
	s.pass(time.Minute)
	if _, o := s.tap(form(10, "poured e2")); !o.Logged {
		t.Fatalf("%+v", o)
	}
	boards["the next"] = anotherBoard(s)
	for name, b := range boards {
		if status, o := b.tap(begin); status != http.StatusConflict || o.Logged || o.Text != refused.Text {
			t.Errorf("%s: what was refused: %d, %+v", name, status, o)
		}
		if a := b.get("tap?key=" + begin.Get("key") + "-begin"); !strings.Contains(a.text, `"known":true`) || !strings.Contains(a.text, "no resin in the bath") {
			t.Errorf("%s: asked for what was refused: %+v", name, a)
		}
	}
	// What another board has logged is known to be, and keys of no page leave nothing behind.
	if a := boards["another"].get("tap?key=" + form(10, "").Get("key") + "-poured"); !strings.Contains(a.text, `"logged":true`) {
		t.Errorf("asked another board: %+v", a)
	}
	s.get("tap?key=garbage")
	s.get("tap?key=" + form(11, "").Get("key") + "-garbage")
	if n := len(s.events()); n != 3 {
		t.Errorf("%d events", n)
	}
	kept, err := os.ReadFile(filepath.Join(s.folder, session.RefusedName))
	if err != nil {
		t.Fatal(err)
	}
	text := string(kept)
	if n := strings.Count(text, `"key":`); n != 2 {
		t.Errorf("%d keys are kept:\n%s", n, text)
	}
}
