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
	asked  time.Time
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
		next.answer, next.fault = nil, err.Error()
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
	s.day, err = session.Through(s.events)
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
	next.size, next.answer, next.fault, next.broken = -1, nil, err.Error(), err
	b.state.Store(&next)
}

// soon asks for a look without waiting for it.
func (b *Board) soon() {
	select {
	case b.kick <- time.Time{}:
	default: // one is due already
	}
}
