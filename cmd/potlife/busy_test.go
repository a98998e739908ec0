package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"
)

// screen is what a terminal of one line shows of what was written to it.
func screen(written string) string {
	var line []rune
	at := 0
	for _, r := range written {
		if r == '\r' {
			at = 0
			continue
		}
		if at == len(line) {
			line = append(line, r)
		}
		line[at] = r
		at++
	}
	return strings.TrimRight(string(line), " ")
}

// TestBusyTogether: nothing is drawn before the first moment; then the newest text is, with
// the seconds that have passed, within the columns; and nothing is left, whether the work ends
// or is interrupted.
func TestBusyTogether(t *testing.T) {
	for _, interrupt := range []bool{false, true} {
		var out bytes.Buffer
		b := newBusy(&out, 30, "fitting")
		first, ticks, interrupts := make(chan time.Time), make(chan time.Time), make(chan os.Signal)
		var by os.Signal
		b.gone.Go(func() { b.watch(first, ticks, interrupts, func(s os.Signal) { by = s }) })
		var shown []string
		ticks <- time.Time{}
		b.count(40, 100, "statements") // not yet to be seen
		first <- time.Time{}
		for range 5 { // the last may see what is said next
			ticks <- time.Time{}
		}
		b.say("100 of 100 statements, and much more than fits")
		ticks <- time.Time{}
		if interrupt {
			interrupts <- os.Interrupt
			b.gone.Wait()
		}
		b.done()
		b.done()
		if (by == os.Interrupt) != interrupt {
			t.Errorf("interrupted by %v", by)
		}
		before := ""
		for part := range strings.SplitAfterSeq(out.String(), "\r") {
			before += part
			if s := screen(before); s != "" && (len(shown) == 0 || shown[len(shown)-1] != s) {
				shown = append(shown, s)
			}
			if n := len([]rune(screen(before))); n >= 30 {
				t.Errorf("%d columns", n)
			}
		}
		got := strings.Join(shown, "|")
		if !strings.HasPrefix(got, "40 of 100 statements, 2 s|40 of 100 statements, 3 s|100 of 100 statements, and mu") {
			t.Errorf("shown: %s", got)
		}
		if left := screen(out.String()); left != "" {
			t.Errorf("left: %q", left)
		}
	}
}

// TestBusyTakesTheKeyAway: terminals show an interrupt as ^C behind the line; that goes too.
func TestBusyTakesTheKeyAway(t *testing.T) {
	var out bytes.Buffer
	b := newBusy(&out, 80, "fitting")
	b.draw("fitting, 2 s")
	out.WriteString("^C")
	interrupts := make(chan os.Signal, 1)
	interrupts <- os.Interrupt
	b.watch(nil, nil, interrupts, func(os.Signal) {})
	if left := screen(out.String()); left != "" {
		t.Errorf("left: %q", left)
	}
}

// TestBusyIsQuiet: a line that nobody waited for is never drawn, and where stderr is no terminal
// there is none.
func TestBusyIsQuiet(t *testing.T) {
	var out bytes.Buffer
	b := newBusy(&out, 80, "fitting")
	b.gone.Go(func() { b.watch(nil, nil, nil, nil) })
	b.done()
	if out.Len() > 0 {
		t.Errorf("%q", out.String())
	}
	cmd := newRoot()
	cmd.SetErr(&out)
	b = working(cmd, "fitting")
	b.count(1, 2, "statements")
	b.done()
	if b.end != nil || out.Len() > 0 {
		t.Errorf("%q", out.String())
	}
}
