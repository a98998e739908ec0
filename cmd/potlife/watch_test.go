package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// A glance is a moment of the recorded strut to look at, and a pause after it: what a watch
// would have seen, had the machine stood.
type glance struct {
	at, pause string
	alarm     report.Alarm
}

// seen answers for the glances, on the recorded strut.
func seen(t *testing.T, glances ...glance) []*report.Check {
	t.Helper()
	s, err := session.OpenFolder(filepath.Join("..", "..", "testdata", "sessions", "strut.session"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	list := make([]*report.Check, len(glances))
	for i, g := range glances {
		if list[i], err = checked(s, &checkOptions{at: g.at, pause: g.pause}, clock()); err != nil {
			t.Fatal(err)
		}
		if got := list[i].Alarm(); got != g.alarm {
			t.Fatalf("the recorded session is another one: at %s after %q the alarm is %d, not %d", g.at, g.pause, got, g.alarm)
		}
	}
	return list
}

// pages collects what is written, write by write.
type pages []string

func (p *pages) Write(text []byte) (int, error) {
	*p = append(*p, string(text))
	return len(text), nil
}

// kept lets a watcher look at the answers in turn, a tick after each, and returns what it
// wrote and how it ended. It must end with the last answer.
func kept(t *testing.T, w *watcher, answers []*report.Check) (pages, error) {
	t.Helper()
	var out pages
	w.out = &out
	ticks := make(chan time.Time, len(answers))
	for range answers {
		ticks <- time.Time{}
	}
	next := 0
	err := w.keep(t.Context(), ticks, func() (*report.Check, error) {
		if next == len(answers) {
			t.Fatal("it looks again after the end")
		}
		next++
		return answers[next-1], nil
	})
	if next != len(answers) {
		t.Errorf("it looked %d times, want %d", next, len(answers))
	}
	return out, err
}

var finished = glance{at: "", alarm: report.Calm}

// TestWatchRings: once when the reserve is reached, three times when nothing is left, not
// while it stays so, and again in the next bath.
func TestWatchRings(t *testing.T) {
	glances := []glance{
		{"09:58", "", report.Calm},
		{"10:22", "5min", report.Calm},
		{"10:22", "20min", report.ReserveReached},
		{"10:22", "25min", report.ReserveReached},
		{"10:22", "45min", report.Dangerous},
		{"10:22", "50min", report.Dangerous},
		{"10:59", "", report.Calm}, // changed, and empty
		{"11:02", "", report.Calm},
		{"12:31", "90min", report.LifeOver}, // of the second bath, at once
		{"12:31", "95min", report.LifeOver},
		finished,
	}
	rings := []int{0, 0, 1, 0, 3, 0, 0, 0, 3, 0, 0}
	out, err := kept(t, &watcher{screen: true}, seen(t, glances...))
	if err != nil {
		t.Errorf("it ends with %v", err)
	}
	if len(out) != len(glances) {
		t.Fatalf("%d writes for %d looks: a page must be written in one piece", len(out), len(glances))
	}
	for i, page := range out {
		if n := strings.Count(page, bell); n != rings[i] {
			t.Errorf("at %s after %q it rings %d times, want %d", glances[i].at, glances[i].pause, n, rings[i])
		}
		if !strings.HasPrefix(page, clearScreen) || strings.Count(page, "\x1b") != strings.Count(clearScreen, "\x1b") {
			t.Errorf("page %d does not clear the terminal once: %.40q", i, page)
		}
	}
}

// TestWatchRingsForTheReserveOfTheNextBath: after a change the reserve is another one.
func TestWatchRingsForTheReserveOfTheNextBath(t *testing.T) {
	out, _ := kept(t, &watcher{screen: true}, seen(t,
		glance{"10:22", "20min", report.ReserveReached},
		glance{"11:02", "", report.Calm},
		glance{"12:31", "36min", report.ReserveReached},
		finished,
	))
	if n := strings.Count(strings.Join(out, ""), bell); n != 2 {
		t.Errorf("it rings %d times in two baths, want 2", n)
	}
}

// TestWatchInAPipe: pages follow one another, with nothing in them that is for a terminal.
func TestWatchInAPipe(t *testing.T) {
	out, err := kept(t, &watcher{}, seen(t, glance{"09:58", "", report.Calm}, glance{"11:02", "", report.Calm}, finished))
	if err != nil {
		t.Error(err)
	}
	all := strings.Join(out, "")
	if strings.Contains(all, "\x1b") {
		t.Errorf("escape codes in a pipe: %q", all)
	}
	for _, part := range []string{"09:58: the machine stands", "11:02: layer 3", "the session is finished"} {
		if strings.Count(all, part) != 1 {
			t.Errorf("%q is there %d times", part, strings.Count(all, part))
		}
	}
}

// TestWatchAsJSON: one object a line, and no bell in it.
func TestWatchAsJSON(t *testing.T) {
	out, err := kept(t, &watcher{json: true}, seen(t, glance{"09:58", "", report.Calm}, glance{"10:22", "45min", report.Dangerous}, finished))
	if err != nil {
		t.Error(err)
	}
	lines := strings.SplitAfter(strings.Join(out, ""), "\n")
	if len(lines) != 4 || lines[3] != "" {
		t.Fatalf("%d lines for three looks: %q", len(lines)-1, lines)
	}
	for i, want := range []string{"carry-on", "spread", "nothing"} {
		var answer struct{ Advice string }
		if err := json.Unmarshal([]byte(lines[i]), &answer); err != nil || answer.Advice != want {
			t.Errorf("line %d says %q, want %q: %v", i+1, answer.Advice, want, err)
		}
		if strings.ContainsAny(lines[i], bell+"\x1b") {
			t.Errorf("line %d is for a terminal: %q", i+1, lines[i])
		}
	}
}

// TestWatchIsInterrupted: with the context, while it waits for a tick that never comes.
func TestWatchIsInterrupted(t *testing.T) {
	answers := seen(t, glance{"09:58", "", report.Calm})
	ctx, stop := context.WithCancel(t.Context())
	looks := 0
	err := (&watcher{out: &bytes.Buffer{}}).keep(ctx, make(chan time.Time), func() (*report.Check, error) {
		looks++
		stop()
		return answers[0], nil
	})
	if err != nil || looks != 1 {
		t.Errorf("interrupted after %d looks with %v, want one and no error", looks, err)
	}
}

// TestWatchTellsErrors: those of a look, at any time, and those of a full or closed output.
func TestWatchTellsErrors(t *testing.T) {
	answers := seen(t, glance{"09:58", "", report.Calm})
	damaged := &session.Damaged{Path: "journal.jsonl", Line: 7, Problem: "it was changed"}
	ticks := make(chan time.Time, 1)
	ticks <- time.Time{}
	looks := 0
	err := (&watcher{out: &bytes.Buffer{}}).keep(t.Context(), ticks, func() (*report.Check, error) {
		looks++
		if looks == 2 {
			return nil, damaged
		}
		return answers[0], nil
	})
	if !errors.Is(err, damaged) {
		t.Errorf("the error of the second look is told as %v", err)
	}
	for _, answered := range []bool{false, true} {
		var out pages
		ticks <- time.Time{}
		err := (&watcher{out: &out, screen: true}).keep(t.Context(), ticks, func() (*report.Check, error) {
			if answered && len(out) == 0 {
				return answers[0], nil
			}
			return nil, damaged
		})
		// What was an order a moment ago is gone, and nothing is cleared that was not drawn.
		want := []string{}
		if answered {
			want = []string{out[0], clearScreen + bell + bell + bell}
		}
		if !errors.Is(err, damaged) || !slices.Equal(out, want) {
			t.Errorf("answered before: %v; it writes %q and ends with %v", answered, out[min(1, len(out)):], err)
		}
		select {
		case <-ticks:
		default:
		}
	}
	err = (&watcher{out: closed{}}).keep(t.Context(), nil, func() (*report.Check, error) { return answers[0], nil })
	if !errors.Is(err, errClosed) {
		t.Errorf("the error of the output is told as %v", err)
	}
}

var errClosed = errors.New("nobody reads this")

type closed struct{}

func (closed) Write([]byte) (int, error) { return 0, errClosed }

// TestWatchOnASmallScreen: what to do is there whole, and above the bar, on a terminal as small
// as a phone's; nothing is wider or longer than that.
func TestWatchOnASmallScreen(t *testing.T) {
	for _, answer := range seen(t,
		glance{"09:58", "", report.Calm}, glance{"10:22", "20min", report.ReserveReached},
		glance{"10:22", "45min", report.Dangerous}, glance{"11:02", "", report.Calm}, finished) {
		var small, whole bytes.Buffer
		answer.Large(&whole, report.Screen{Width: 30}, clock())
		answer.Large(&small, report.Screen{Width: 30, Height: 15}, clock())
		order := orderOf(whole.String())
		if order == "" || orderOf(small.String()) != order {
			t.Errorf("the advice %q is cut in\n%s", order, small.String())
		}
		if lines := strings.Split(strings.TrimSuffix(small.String(), "\n"), "\n"); len(lines) > 14 {
			t.Errorf("%d lines on a screen of 15:\n%s", len(lines), small.String())
		} else if wide := slices.MaxFunc(lines, func(a, b string) int { return utf8.RuneCountInString(a) - utf8.RuneCountInString(b) }); utf8.RuneCountInString(wide) > 30 {
			t.Errorf("%q is too wide", wide)
		}
		if bar := strings.Index(whole.String(), "["); bar >= 0 && bar < strings.Index(whole.String(), order) {
			t.Errorf("the bar stands above the advice:\n%s", whole.String())
		}
	}
}

// orderOf are the lines of a large page from the advice, in capitals, to the end of its
// sentence's paragraph.
func orderOf(page string) string {
	lines := strings.Split(page, "\n")
	for i, line := range lines {
		for _, verb := range []string{"GET THE BATH OUT", "FINISHED", "FINISH LAYER", "CARRY ON", "TOP UP", "CHANGE", "STOP"} {
			if !strings.HasPrefix(line, verb) {
				continue
			}
			end := i + 1
			for end < len(lines) && strings.HasPrefix(lines[end], "  ") {
				end++
			}
			return strings.Join(lines[i:end], "\n")
		}
	}
	return ""
}

// TestWatchWhereClocksDiffer: the display shows no figure of minutes and orders no pot while events
// lie ahead of the clock, rings for it, and has its figures again when the clock is right.
func TestWatchWhereClocksDiffer(t *testing.T) {
	setClock(t, "2026-11-21T10:10:00Z")
	folder := boardSession(t, clock().Add(-20*time.Minute), []string{"mixed", "239.3g", "--at", "2026-11-21T10:00:00Z"}, []string{"poured", "--at", "2026-11-21T10:05:00Z"})
	watched := func(moment string) (page string, alarm report.Alarm) {
		setClock(t, moment)
		answer, err := lookedAt(folder, &checkOptions{}, clock())
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		answer.Large(&out, report.Screen{Width: 80, Height: 24}, clock())
		return out.String(), answer.Alarm()
	}
	page, alarm := watched("2026-11-21T09:00:00Z")
	for _, says := range []string{"CLOCKS DIFFER: 3 events lie up to 65 min ahead", "MIX NOTHING before the clocks agree", "not known", "*** CLOCKS DIFFER ***"} {
		if !strings.Contains(page, says) {
			t.Errorf("the display does not say %q:\n%s", says, page)
		}
	}
	if strings.ContainsAny(page, "█[") || strings.Contains(page, "no resin") || strings.Contains(page, "surely") || alarm != report.LifeOver {
		t.Errorf("alarm %d:\n%s", alarm, page)
	}
	if page, alarm := watched("2026-11-21T10:11:00Z"); !strings.Contains(page, "█") || strings.Contains(page, "CLOCKS") || alarm != report.Calm {
		t.Errorf("alarm %d:\n%s", alarm, page)
	}
}
