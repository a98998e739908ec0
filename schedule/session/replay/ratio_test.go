package replay

import (
	"testing"

	"potlife/schedule/session/daytest"
)

// TestOffRatio: a pot off its ratio is known in its cup, where nobody is to use it, and in the
// bath, until that is changed or the pot undone; one by its mass alone is at the ratio.
func TestOffRatio(t *testing.T) {
	d := newDay(daytest.Prepared(t))
	d.MixedParts(0, 200, 60)
	d.Mixed(1, 240)
	d.MixedParts(2, 200, 48.5)
	s := d.script(t, 3)
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
	d.Poured(5, 2)
	d.Poured(6, 3)
	if in := d.script(t, 7).InBath(); len(in) != 2 || in[0].Seq != 2 || in[1].Seq != 3 {
		t.Errorf("in the bath: %+v", in)
	}
	d.Changed(8)
	d.Poured(9, 4)
	if in := d.script(t, 10).InBath(); len(in) != 1 || in[0].Seq != 4 {
		t.Errorf("in the bath after a change: %+v", in)
	}
}
