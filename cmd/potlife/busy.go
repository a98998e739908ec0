package main

import (
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"sync"
	"sync/atomic"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// A command that takes longer than patience says so on a terminal, and again every tick.
const (
	patience = 2 * time.Second
	tick     = 250 * time.Millisecond
)

// busy is the line of a terminal that says what a command is at, from the moment at which
// somebody begins to wonder. It is gone before anything else is written.
type busy struct {
	out     io.Writer
	columns int
	what    atomic.Pointer[string]
	drawn   int // characters

	stop sync.Once
	end  chan struct{} // nil: nobody looks
	gone sync.WaitGroup
}

// working begins to say what a command is at. The caller must call done before it writes, and
// may as well defer it.
func working(cmd *cobra.Command, what string) *busy {
	f, ok := cmd.ErrOrStderr().(*os.File)
	if !ok || !terminal(f) {
		return &busy{}
	}
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil || columns <= 0 {
		columns = 80
	}
	b := newBusy(f, columns, what)
	// An interrupt is waited for from the start: a program that catches it only later
	// would be ended with a line half drawn.
	interrupts := make(chan os.Signal, 1)
	signal.Notify(interrupts, os.Interrupt)
	first, ticks := time.NewTimer(patience), time.NewTicker(tick)
	b.gone.Go(func() {
		defer signal.Stop(interrupts)
		defer ticks.Stop()
		defer first.Stop()
		b.watch(first.C, ticks.C, interrupts, endBy)
	})
	return b
}

func newBusy(out io.Writer, columns int, what string) *busy {
	b := &busy{out: out, columns: columns, end: make(chan struct{})}
	b.say(what)
	return b
}

// say replaces what is said; it may be called from several goroutines.
func (b *busy) say(what string) { b.what.Store(&what) }

// count says how many of so many are done.
func (b *busy) count(done, of int, things string) {
	b.say(fmt.Sprintf("%d of %d %s", done, of, things))
}

// done takes the line away.
func (b *busy) done() {
	if b.end == nil {
		return
	}
	b.stop.Do(func() { close(b.end) })
	b.gone.Wait()
}

// watch draws from the first moment on with every tick, until it is done or interrupted.
func (b *busy) watch(first, ticks <-chan time.Time, interrupts <-chan os.Signal, interrupted func(os.Signal)) {
	begun, waited := false, time.Duration(0)
	for {
		select {
		case <-b.end:
			b.draw("")
			return
		case s := <-interrupts:
			if b.drawn > 0 {
				b.drawn = min(b.drawn+len("^C"), b.columns-1) // as terminals show the key
			}
			b.draw("")
			interrupted(s)
			return
		case <-first:
			begun, waited = true, patience
		case <-ticks:
			if begun {
				waited += tick
			}
		}
		if begun {
			b.draw(fmt.Sprintf("%s, %.0f s", *b.what.Load(), waited.Truncate(time.Second).Seconds()))
		}
	}
}

// draw writes a text over the one before, by blanks and returns, which every terminal knows.
func (b *busy) draw(text string) {
	if r := []rune(text); len(r) >= b.columns {
		text = string(r[:b.columns-1]) // the last column would break the line
	}
	n := utf8.RuneCountInString(text)
	blank := strings.Repeat(" ", max(0, b.drawn-n))
	if n > 0 || b.drawn > 0 {
		fmt.Fprint(b.out, "\r"+text+blank+"\r"+text)
	}
	b.drawn = n
}

// endBy ends the program as the signal would have done: commands write what they write as a
// whole and after their work, so that nothing is left half done.
func endBy(s os.Signal) {
	signal.Reset(s)
	if self, err := os.FindProcess(os.Getpid()); err == nil && self.Signal(s) == nil {
		select {} // it is on its way
	}
	os.Exit(exitFailed) // where a process cannot signal itself
}
