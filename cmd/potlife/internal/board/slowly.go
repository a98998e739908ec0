package board

import (
	"context"
	"sync"
	"time"
)

// often is how often plan and curve are made anew where nothing was logged.
const often = time.Minute

// slowly keeps what takes too long for every second: the plan of the rest, and the curve.
type slowly struct {
	wait sync.WaitGroup

	mutex   sync.Mutex
	running bool
	at      time.Time
	seq     int
	next    *NextPot
	curve   []byte
	version int // of the curve
}

// begin starts the work in the background if it is due and not being done.
func (s *slowly) begin(ctx context.Context, b *Board) {
	now, st := b.cfg.Now(), b.state.Load()
	s.mutex.Lock()
	defer s.mutex.Unlock()
	due := s.at.IsZero() || s.seq != st.seq || now.Sub(s.at).Abs() >= often
	if s.running || !due || ctx.Err() != nil || b.cfg.Next == nil && b.cfg.Curve == nil {
		return
	}
	s.running = true
	s.wait.Go(func() {
		next, curve := b.work(now)
		s.mutex.Lock()
		defer s.mutex.Unlock()
		s.running, s.at, s.seq, s.next, s.curve = false, now, st.seq, next, curve
		s.version++
	})
}

// work makes both; what cannot be made is not shown, since check tells why.
func (b *Board) work(now time.Time) (next *NextPot, curve []byte) {
	var err error
	if b.cfg.Next != nil {
		if next, err = b.cfg.Next(now); err != nil {
			next = nil
		}
	}
	if b.cfg.Curve != nil {
		if curve, err = b.cfg.Curve(now); err != nil {
			curve = nil
		}
	}
	return next, curve
}

// latest returns what was made last; a pot only if nothing was logged since.
func (s *slowly) latest(seq int) (next *NextPot, curve []byte, version int) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	if s.seq == seq {
		next = s.next
	}
	return next, s.curve, s.version
}
