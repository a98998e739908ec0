package replay

import (
	"math"
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/session/daytest"
)

// drummed is the invented job with another drum, and nothing uncertain.
func drummed(t *testing.T, drum string) *schedule.Winding {
	t.Helper()
	w := daytest.Prepared(t, "drum: {turns: always}", drum)
	w.Task.Spread = ensemble.Spread{Time: 1, Viscosity: 1, Loss: 1}
	return w
}

// only is the one world of a day without uncertainty.
func only(t *testing.T, d day, minutes float64) *World {
	t.Helper()
	w, err := d.script(t, minutes).World(ensemble.Nominal())
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestStandIsCountedFromWhenTheDrumStopped: the life left at a stand is that of the slab from the
// moment at which the drum stopped, less the time since; and when that is over, so is the bath's,
// though on average it is far from any limit.
func TestStandIsCountedFromWhenTheDrumStopped(t *testing.T) {
	w := drummed(t, "drum: {turns: with-tow}")
	d := newDay(w)
	d.Fill(0, 600)
	d.Begin(10, 1)
	d.Pause(20)
	stopped := only(t, d, 20)
	pot, err := still.New(w.Task.Resin, still.Tray{Vessel: w.Task.Bath.Vessel, Mass: stopped.Bath.Mass}, w.Task.Room, w.Task.Wall, still.Working)
	if err != nil {
		t.Fatal(err)
	}
	slab, err := pot.Life(stopped.Bath, 20*60, w.Task.Limits, 86400)
	if err != nil {
		t.Fatal(err)
	}
	last := 20 + slab.Left.In("min")
	for _, minutes := range []float64{20, 21, 30, last - 1} {
		left, by, err := only(t, d, minutes).Ahead().Exactly(lifeHorizon)
		want := slab.Left - quantity.Time(60*(minutes-20))
		// The slab of a stand has five cells, or nine as here: 0.3 % of a life, as its test has it.
		if err != nil || by != slab.EndsBy || !(math.Abs(float64(left-want)) <= 0.003*float64(slab.Left)) {
			t.Errorf("at %.0f min %v are left by %s, the slab has %v by %s; %v", minutes, left, by, want, slab.EndsBy, err)
		}
	}
	over := only(t, d, last+1)
	if over.Over != slab.EndsBy || !(over.OverAt <= 20*60+slab.Left) {
		t.Errorf("a minute after its end: over by %q at %v", over.Over, over.OverAt)
	}
	if mean := over.Bath.Temperature; !(mean < w.Task.Limits.BathTemperature-1) {
		t.Errorf("its mean is at %v: the case shows nothing", mean)
	}
	p, err := d.script(t, last-1).Play()
	if err != nil {
		t.Fatal(err)
	}
	// In a minute it warms by less than a kelvin and a half.
	if now, err := p.BathNow(); err != nil || !(math.Abs(float64(now.Hottest-w.Task.Limits.BathTemperature)) < 1.5) {
		t.Errorf("a minute before its end its hottest place is at %v; %v", now.Hottest, err)
	}
}

// TestDrumStirsAgain: when the tow runs on after a short stand the bath is mixed, and has the life
// of one that is.
func TestDrumStirsAgain(t *testing.T) {
	d := newDay(drummed(t, "drum: {turns: with-tow}"))
	d.Fill(0, 600)
	d.Begin(10, 1)
	d.Pause(20)
	d.Resume(25)
	w := only(t, d, 26)
	left, _, err := w.Ahead().Exactly(lifeHorizon)
	if err != nil {
		t.Fatal(err)
	}
	mixed, err := w.stand.Exact().Life(w.Bath, 26*60, w.script.Task.Limits, lifeHorizon)
	if err != nil || left != mixed.Left {
		t.Errorf("%v left, mixed it has %v; %v", left, mixed.Left, err)
	}
}

// TestEndsOfABathLieFromThePour: what a short drum does not reach, and a bath without one, lives
// from its pour on as a slab, though the tow runs; a pour stirs it.
func TestEndsOfABathLieFromThePour(t *testing.T) {
	for _, drum := range []string{"drum: none", "drum: {length: 150 mm}"} {
		d := newDay(drummed(t, drum))
		d.Fill(0, 600)
		d.Begin(10, 1)
		poured := only(t, d, 5)
		fresh, _, err := poured.Ahead().Exactly(lifeHorizon)
		if err != nil {
			t.Fatal(err)
		}
		later := only(t, d, 30)
		left, _, err := later.Ahead().Exactly(lifeHorizon)
		if err != nil {
			t.Fatal(err)
		}
		// It lies as deep as it was then, whatever the tow has drawn.
		if d := left - (fresh - 25*60); !(math.Abs(float64(d)) <= 1) {
			t.Errorf("%s: %v left at 30 min, %v when poured", drum, left, fresh)
		}
		d.W = drummed(t, "drum: {turns: with-tow}")
		if whole, _, err := only(t, d, 30).Ahead().Exactly(lifeHorizon); err != nil || !(whole > left+30) {
			t.Errorf("%s: %v left, stirred until now %v; %v", drum, left, whole, err)
		}
		d.W = drummed(t, drum)
		d.Fill(25, 200)
		if mixed := only(t, d, 31); mixed.lies.from != 30*60 {
			t.Errorf("%s: a pour has not stirred it: it lies since %v", drum, mixed.lies.from)
		}
	}
	// At its lowest this bath is 2.9 mm deep.
	for drum, want := range map[string]vessel.Drum{"drum: {length: 295 mm}": vessel.DrumWithTow, "drum: {length: 290 mm}": vessel.NoDrum} {
		if got := drummed(t, drum).Task.Bath.Vessel.Drum; got != want {
			t.Errorf("%s in a bath of 300 mm: %v, want %v", drum, got, want)
		}
	}
}

// TestEndOfWhatLiesStays: when what lies still passed a limit is the same whenever it is asked, though
// the bath, if it were stirred, would pass one later.
func TestEndOfWhatLiesStays(t *testing.T) {
	for _, drum := range []string{"drum: {turns: with-tow}", "drum: none"} {
		d := newDay(drummed(t, drum))
		d.Fill(0, 800)
		d.Begin(10, 1)
		d.Pause(20)
		first, later := quantity.Time(0), 0
		for minutes := 30.0; minutes <= 240; minutes += 10 {
			w := only(t, d, minutes)
			if w.Over == vessel.NoLimit {
				continue
			}
			if first == 0 {
				first = w.OverAt
			}
			// The quick life may be 2 % short by where its horizon lies in a step: half a minute.
			if later++; !(math.Abs(float64(w.OverAt-first)) <= 30) {
				t.Errorf("%s: asked at %.0f min it was over at %v, before at %v", drum, minutes, w.OverAt, first)
			}
		}
		if later < 3 {
			t.Errorf("%s: over at %d moments: nothing is tested", drum, later)
		}
		left, _, err := only(t, d, first.In("min")-2).Ahead().Exactly(lifeHorizon)
		if err != nil || !(left <= 240) {
			t.Errorf("%s: two minutes before, %v are left; %v", drum, left, err)
		}
	}
}
