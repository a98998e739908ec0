package board

import (
	"context"
	"sync"
	"time"

	"potlife/schedule/session"
)

// often is how often the curve is drawn anew where nothing was logged.
const often = time.Minute

// slowly does what takes too long for a tap or for every second: the curve of the bath, and
// asking whether the plan in force still holds.
type slowly struct {
	wait sync.WaitGroup

	mutex   sync.Mutex
	running bool
	at      time.Time
	seq     int
	curve   []byte
	version int

	tapped   []session.Event // after which nobody has asked about the plan yet
	renewing bool
}

// asked notes a tap after which the plan is to be asked about.
func (s *slowly) asked(e session.Event) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.tapped = append(s.tapped, e)
}

// renew asks about the plan in the background, one tap after another. What was begun is ended
// before the board is: it may be writing.
func (s *slowly) renew(ctx context.Context, b *Board) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if b.cfg.Renew == nil || ctx.Err() != nil || s.renewing || len(s.tapped) == 0 {
		return
	}
	s.renewing = true
	s.wait.Go(func() {
		for e, found := s.next(ctx); found; e, found = s.next(ctx) {
			b.cfg.Renew(e)
		}
		b.soon()
	})
}

// next is the tap to be asked about.
func (s *slowly) next(ctx context.Context) (session.Event, bool) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if len(s.tapped) == 0 || ctx.Err() != nil {
		s.renewing = false
		return session.Event{}, false
	}
	e := s.tapped[0]
	s.tapped = s.tapped[1:]
	return e, true
}

// begin starts to draw in the background if that is due and not being done.
func (s *slowly) begin(ctx context.Context, b *Board) {
	if b.cfg.Curve == nil || ctx.Err() != nil {
		return
	}
	now, st := b.cfg.Now(), b.state.Load()
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if due := s.at.IsZero() || s.seq != st.seq || now.Sub(s.at).Abs() >= often; s.running || !due {
		return
	}
	s.running = true
	s.wait.Go(func() {
		curve, err := b.cfg.Curve(now)
		if err != nil {
			curve = nil // the answer tells what is wrong
		}
		s.mutex.Lock()
		defer s.mutex.Unlock()
		s.running, s.at, s.seq, s.curve = false, now, st.seq, curve
		s.version++
	})
}

// latest is what was drawn last, and which drawing it is.
func (s *slowly) latest() (curve []byte, version int) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return s.curve, s.version
}
