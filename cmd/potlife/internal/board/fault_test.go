package board_test

import (
	"errors"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// raw are words of operating systems and of Go's file errors.
var raw = regexp.MustCompile(`(?i)\b(stat|lstat|open|read|fork)\b [^ ]*[/\\]|no such file|permission denied|input/output error|not a directory|invalid argument|errno|\bEOF\b`)

// lively lets a shop have a bath and a layer in hand, so that there is an order.
func (s *shop) lively() {
	s.t.Helper()
	for i, f := range []string{"mixed", "poured e2", "begin 1"} {
		s.pass(time.Minute)
		more := []string{"grams", "239.3"}
		if i > 0 {
			more = nil
		}
		if status, o := s.tap(form(100+i, f, more...)); status != http.StatusOK {
			s.t.Fatalf("%s: %d %+v", f, status, o)
		}
	}
	s.pass(10 * time.Second)
	if page := s.get("").text; !strings.Contains(page, "<strong>CARRY ON</strong>") || strings.Contains(page, `class="dead"`) {
		s.t.Fatalf("no order, or one that is struck out:\n%s", page)
	}
}

// struckOut asserts that a page has no order that stands, says that there is no answer, and
// has no words of the system.
func (s *shop) struckOut(what, says string) {
	s.t.Helper()
	page := s.get("").text
	live, dead, found := strings.Cut(page, `<div class="dead">`)
	_, rest, _ := strings.Cut(dead, "</div>")
	if !found || strings.Contains(live+rest, "CARRY ON") || !strings.Contains(live, "It is no order any more") || !strings.Contains(live, "<title>NO ANSWER</title>") || !strings.Contains(live, says) {
		s.t.Errorf("%s: order and figure stand, or not why:\n%s", what, page)
	}
	if words := raw.FindString(page); words != "" {
		s.t.Errorf("%s: the page says %q", what, words)
	}
}

// TestUnreadSession: where the session cannot be read, order and figure are struck out, the page
// says why in words and what to do, taps are refused likewise, and it goes on by itself.
func TestUnreadSession(t *testing.T) {
	s := newShop(t, nil)
	s.lively()
	journal := filepath.Join(s.folder, session.Name)
	away := s.folder + "-away"
	for i, c := range []struct{ what, from, to, says string }{
		{"the journal is gone", journal, journal + "-away", "is not there any more"},
		{"the folder is gone", s.folder, away, "is not there any more"},
	} {
		if err := os.Rename(c.from, c.to); err != nil {
			t.Fatal(err)
		}
		s.struckOut(c.what, c.says)
		status, o := s.tap(form(200+i, "done 1"))
		if status != http.StatusServiceUnavailable || o.Logged || raw.MatchString(o.Text) || !strings.Contains(o.Text, c.says) || !strings.Contains(o.Text, "\n   ") {
			t.Errorf("%s, a tap: %d %+v", c.what, status, o)
		}
		if page := s.get("").text; !strings.Contains(page, `data-place="mixed" disabled`) {
			t.Errorf("%s: buttons are on", c.what)
		}
		if err := os.Rename(c.to, c.from); err != nil {
			t.Fatal(err)
		}
		if page := s.get("").text; strings.Contains(page, `class="dead"`) || !strings.Contains(page, "CARRY ON") {
			t.Errorf("%s and back again: it does not go on", c.what)
		}
	}
}

// TestNoAnswer: whatever the system says when the answer is worked out, people are told words.
func TestNoAnswer(t *testing.T) {
	var fails atomic.Pointer[error]
	s := newShop(t, func(c *board.Config) {
		look := c.Look
		c.Look = func(now time.Time) (*report.Check, error) {
			if err := fails.Load(); err != nil {
				return nil, *err
			}
			return look(now)
		}
	})
	s.lively()
	for says, err := range map[string]error{
		"is not there any more":       &fs.PathError{Op: "stat", Path: "/mnt/stick/journal.jsonl", Err: syscall.ENOENT},
		"may not be read":             &session.Failed{Doing: "read", Path: "journal.jsonl", Err: &fs.PathError{Op: "open", Path: "/x", Err: syscall.EACCES}},
		"the disk does not give":      &session.Failed{Doing: "read", Path: "journal.jsonl", Err: syscall.EIO},
		"is full":                     &session.Failed{Doing: "write", Path: "journal.jsonl", Err: syscall.ENOSPC},
		"another process has held it": errors.New("another process has held it\n   end the process that hangs"),
	} {
		s.pass(10 * time.Second)
		fails.Store(&err)
		s.struckOut(err.Error(), says)
		fails.Store(nil)
	}
}

// TestSilentDisk: an answer that nobody renews, since reading hangs, is struck out in half a
// minute.
func TestSilentDisk(t *testing.T) {
	var hangs atomic.Pointer[chan struct{}]
	s := newShop(t, func(c *board.Config) {
		look := c.Look
		c.Look = func(now time.Time) (*report.Check, error) {
			if wait := hangs.Load(); wait != nil {
				<-*wait
			}
			return look(now)
		}
	})
	s.lively()
	wait := make(chan struct{})
	hangs.Store(&wait)
	defer close(wait)
	s.pass(time.Minute)
	r, err := s.client.Get(s.address + "stream")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	buffer, text := make([]byte, 1<<16), ""
	for !strings.Contains(text, "It is no order any more") {
		n, err := r.Body.Read(buffer)
		if err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		text += string(buffer[:n])
	}
}
