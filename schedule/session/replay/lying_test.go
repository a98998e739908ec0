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
		// The tow drew resin, so that it lies a little less deep, and lives longer by that.
		if d := left - (fresh - 25*60); !(d >= -1 && d < 0.15*fresh) {
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
	if whole := drummed(t, "drum: {length: 280 mm}").Task.Bath.Vessel.Drum; whole != vessel.DrumWithTow {
		t.Error("a drum that reaches to within a depth of the ends leaves them")
	}
}
