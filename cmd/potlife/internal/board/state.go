package board

import (
	"context"
	"os"
	"path/filepath"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// A state is the session as it was last read, and what there is to say of it.
type state struct {
	size   int64 // of the journal
	seq    int   // of its last event
	events []session.Event
	day    session.Day
	cut    []string // warnings of a journal whose last line was

	answer *report.Check // nil: fault
	before *report.Check // the last answer that there was, where there is a fault
	asked  time.Time     // when it was looked
	fault  string
	broken error // of a journal that cannot be read: nothing is logged into it
}

// How often is looked: the figures run down by themselves in between, and a crew reads
// minutes. Readings of others are seen within a second, since the journal grows.
const (
	refresh = 5 * time.Second
	tick    = time.Second
	breath  = 50 * time.Millisecond // between two looks, where taps come one upon the other
)

// look reads the journal if it has grown and works out the answer if that, or time, has
// changed it. The error is that of a journal that cannot be read.
func (b *Board) look() (*state, error) {
	b.looks.Lock()
	defer b.looks.Unlock()
	now, was := b.cfg.Now(), b.state.Load()
	info, err := os.Stat(filepath.Join(b.cfg.Folder, session.Name))
	if err != nil {
		return nil, err
	}
	if was != nil && was.size == info.Size() {
		if age := now.Sub(was.asked); age >= 0 && age < refresh {
			return was, nil
		}
	}
	next := &state{size: info.Size()}
	if was != nil && was.size == info.Size() {
		next.seq, next.events, next.day, next.cut = was.seq, was.events, was.day, was.cut
	} else if err := next.read(b.cfg.Folder); err != nil {
		return nil, err
	}
	next.asked = now
	if next.answer, err = b.cfg.Look(now); err != nil {
		next.answer, next.fault, next.before = nil, inWords(err, b.cfg.Folder), was.latest()
	}
	b.state.Store(next)
	return next, nil
}

// read reads the journal anew: others log too.
func (s *state) read(folder string) error {
	opened, err := session.OpenFolder(folder)
	if err != nil {
		return err
	}
	defer opened.Close() // only read
	if s.events, err = opened.Events(); err != nil {
		return err
	}
	s.seq, s.cut = len(s.events), report.Sentences(opened.Report.Warnings())
	s.day, err = opened.DayOf(s.events)
	return err
}

// keepLooking looks at every tick and after every tap.
func (b *Board) keepLooking(ctx context.Context) {
	ticker := time.NewTicker(tick)
	defer ticker.Stop()
	for {
		if _, err := b.look(); err != nil {
			b.broken(err)
		}
		b.slow.begin(ctx, b)
		b.slow.renew(ctx, b)
		b.hub.wake()
		for _, due := range [][2]<-chan time.Time{{time.After(breath)}, {ticker.C, b.kick}} {
			select {
			case <-ctx.Done():
				b.slow.wait.Wait()
				return
			case <-due[0]:
			case <-due[1]:
			}
		}
	}
}

// broken shows why the journal cannot be read instead of an answer.
func (b *Board) broken(err error) {
	b.looks.Lock()
	defer b.looks.Unlock()
	next := *b.state.Load()
	next.size, next.before, next.fault, next.broken = -1, next.latest(), inWords(err, b.cfg.Folder), err
	next.answer = nil
	b.state.Store(&next)
}

// latest is the last answer that there was; nil: none.
func (s *state) latest() *report.Check {
	switch {
	case s == nil:
		return nil
	case s.answer != nil:
		return s.answer
	}
	return s.before
}

// stale is how old an answer may be before it counts as none. A look that does not come to its
// end, such as on a network drive that hangs, has no error to show.
const stale = 30 * time.Second

// current is the state as it counts at now: where the journal was not read for too long, that
// is a fault.
func (s *state) current(now time.Time, folder string) *state {
	if s.answer == nil || now.Sub(s.asked) < stale || s.answer.Finished() {
		return s
	}
	old := *s
	old.answer, old.before = nil, s.answer
	old.fault = "the session " + folder + " was not read for " + spokenAge(now.Sub(s.asked)) + ": its disk does not answer, or this machine is too busy\n   " +
		"wait for this page to go on by itself, or start the board again; log on paper meanwhile"
	return &old
}

// soon asks for a look without waiting for it.
func (b *Board) soon() {
	select {
	case b.kick <- time.Time{}:
	default: // one is due already
	}
}
