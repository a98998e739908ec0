package board

import (
	"context"
	"sync"
	"time"
)

// often is how often the curve is drawn anew where nothing was logged.
const often = time.Minute

// slowly keeps what takes too long for every second: the curve of the bath.
type slowly struct {
	wait sync.WaitGroup

	mutex   sync.Mutex
	running bool
	at      time.Time
	seq     int
	curve   []byte
	version int
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
