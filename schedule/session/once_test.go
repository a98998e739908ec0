package session

import (
	"errors"
	"sync"
	"testing"
)

// TestLogOnceTogether: a tap that arrives many times, from many at once, is one event; what was
// refused stays refused under its key.
func TestLogOnceTogether(t *testing.T) {
	s := newSession(t)
	mixed := Event{Kind: Mixed, MassG: 200, At: after(1), Logged: after(1)}
	var wait sync.WaitGroup
	var seqs [8]int
	for i := range seqs {
		wait.Go(func() {
			e, err := s.LogOnce("tap-1", mixed, nil)
			if err != nil {
				t.Error(err)
			}
			seqs[i] = e.Seq
		})
	}
	wait.Wait()
	for _, seq := range seqs {
		if seq != 2 {
			t.Errorf("the events of one key have the numbers %v", seqs)
			break
		}
	}
	begin := Event{Kind: Begin, At: after(2), Logged: after(2)}
	var refusal *Refusal
	if _, err := s.LogOnce("tap-2", begin, nil); !errors.As(err, &refusal) {
		t.Fatalf("a layer without resin: %v", err)
	}
	poured := Event{Kind: Poured, At: after(2), Logged: after(2)}
	var again *Refused
	if _, err := s.LogOnce("tap-2", poured, nil); !errors.As(err, &again) || again.Text != refusal.Error() {
		t.Errorf("a key that was refused: %v", err)
	}
	if e, err := s.LogOnce("tap-3", poured, nil); err != nil || e.Seq != 3 || e.Pot != 2 {
		t.Errorf("another key: %+v, %v", e, err)
	}
	if e, err := s.LogOnce("tap-1", poured, nil); err != nil || e.Kind != Mixed || e.MassG != 200 {
		t.Errorf("another event with a key that was used: %+v, %v", e, err)
	}
	if all, err := s.Events(); err != nil || len(all) != 3 {
		t.Errorf("%d events, %v", len(all), err)
	}
	if _, err := s.LogOnce("", poured, nil); err == nil {
		t.Error("an empty key is taken")
	}
}
