package replay

import (
	"testing"

	"potlife/schedule/session"
)

// TestOffRatio: a pot off its ratio is known in its cup, where nobody is to use it, and in the
// bath, until that is changed or the pot undone; one by its mass alone is at the ratio.
func TestOffRatio(t *testing.T) {
	w := prepared(t, "")
	l := newLog(w)
	l.add(0, session.Event{Kind: session.Mixed, ResinG: 200, HardenerG: 60})
	l.add(1, session.Event{Kind: session.Mixed, MassG: 240})
	l.add(2, session.Event{Kind: session.Mixed, ResinG: 200, HardenerG: 48.5})
	s := l.script(t, w, 3)
	for i, want := range []float64{0.25, 0, 0} { // of 24 to 100, within 2 %
		if got := s.OffRatio(&s.Pots[i]); !(got >= want-1e-9 && got <= want+1e-9) {
			t.Errorf("pot %d is off by %g, want %g", i, got, want)
		}
	}
	p, err := s.Play()
	if err != nil {
		t.Fatal(err)
	}
	usable, err := p.Usable()
	if err != nil || len(usable) != 2 || usable[0].Seq != 3 || usable[1].Seq != 4 {
		t.Errorf("usable: %+v, %v", usable, err)
	}
	if in := s.InBath(); len(in) != 0 {
		t.Errorf("in an empty bath: %+v", in)
	}
	l.add(5, session.Event{Kind: session.Poured, Pot: 2})
	l.add(6, session.Event{Kind: session.Poured, Pot: 3})
	if in := l.script(t, w, 7).InBath(); len(in) != 2 || in[0].Seq != 2 || in[1].Seq != 3 {
		t.Errorf("in the bath: %+v", in)
	}
	l.add(8, session.Event{Kind: session.Changed})
	l.add(9, session.Event{Kind: session.Poured, Pot: 4})
	if in := l.script(t, w, 10).InBath(); len(in) != 1 || in[0].Seq != 4 {
		t.Errorf("in the bath after a change: %+v", in)
	}
}
