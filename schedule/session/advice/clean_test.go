package advice

import (
	"math"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/daytest"
)

// cleanBy is when the bath must be cleaned by an answer, the zero time where it says nothing.
func cleanBy(w *schedule.Winding, a *Answer) time.Time {
	if math.IsNaN(float64(a.CleanBy)) {
		return time.Time{}
	}
	return w.Job.Clock(a.CleanBy)
}

// TestCleanInTime: on a day as planned every bath but the last is told until when it stays clean,
// after the plan changes it, and the bath after the last change nothing: it lasts to the end.
func TestCleanInTime(t *testing.T) {
	w := prepared(t, daytest.Layers, "  - {helical: 25 deg, repeat: 12}\n")
	p := daytest.Planned(t, w).Plan
	if p.Score.Changes != 1 {
		t.Fatalf("%d changes", p.Score.Changes)
	}
	d := newDay(w)
	d.AsPlanned(p)
	old := true
	for i, pour := range p.Pours {
		at := float64(pour.Winds/minute) + 1
		by := cleanBy(w, d.ask(t, at, 0))
		if old = old && pour.Into != batches.Change; by.IsZero() == old {
			t.Errorf("pour %d, %s: clean by %v", i+1, pour.Into, by)
		}
		if next := i + 1; old && next < len(p.Pours) && !by.After(w.Job.Clock(p.End[p.Pours[next].Stop-1])) {
			t.Errorf("pour %d: clean by %v, and wound from until after that", i+1, by)
		}
	}
}

// TestNotCleaned: who tops up where the plan changes the bath gets minutes that end by what
// sticks, then a bath past its limit; a change makes it good.
func TestNotCleaned(t *testing.T) {
	w := prepared(t, daytest.Layers, "  - {helical: 25 deg, repeat: 12}\n")
	d := newDay(w)
	takes := float64(w.Laid[0].Time / minute)
	d.Fill(0, 245)
	for layer, begin := 1, 6.0; layer <= 6; layer, begin = layer+1, begin+takes+7 {
		d.Layer(layer, begin, begin+takes)
		d.Fill(begin+takes, 125)
	}
	at := d.Last() + 1
	near := d.ask(t, at, 0)
	by := w.Job.Clock(near.Now + near.StoppedSure)
	if near.EndsBy != vessel.NotClean || near.Situation.Bath != Sound {
		t.Fatal(near.EndsBy, near.say())
	}
	if !cleanBy(w, near).Equal(by) {
		t.Errorf("clean by %v, and minutes left to %v", cleanBy(w, near), by)
	}
	if near.Advice != Change || !(near.ActBefore <= near.Now+near.StoppedSure) {
		t.Errorf("a layer of %.0f min does not fit: %s", takes, near.say())
	}
	past := d.ask(t, at+float64(near.StoppedSure/minute)+2, 0)
	if past.Situation.Bath != Past || past.MachineAdvice == CarryOn || past.MachineAdvice == TopUp || past.EndsBy != vessel.NotClean || !cleanBy(w, past).IsZero() {
		t.Errorf("%s: %s", past.EndsBy, past.say())
	}
	if when := quantity.Time(at)*minute + near.StoppedSure; !(past.PastSince-when <= 2*minute && when-past.PastSince <= 2*minute) {
		t.Errorf("past since %.1f min, foreseen at %.1f", float64(past.PastSince/minute), float64(when/minute))
	}
	d.Changed(at + 2)
	d.Fill(at+2, 250)
	if good := d.ask(t, at+8, 0); good.EndsBy == vessel.NotClean || good.Situation.Bath != Sound || good.Advice != CarryOn {
		t.Errorf("%s: %s", good.EndsBy, good.say())
	}
}

// TestCleanAsTheJobSays: a time in the job replaces the gel of what sticks, to the second, and
// none of either is left of it.
func TestCleanAsTheJobSays(t *testing.T) {
	const limits = "limits: {"
	for says, want := range map[string]float64{"clean: 100 min, ": 105, "clean: none, ": 0} {
		w := prepared(t, daytest.Layers, "  - {helical: 25 deg, repeat: 12}\n", limits, limits+says)
		d := newDay(w)
		d.Fill(0, 400) // poured after 5 min
		d.Layer(1, 6, 40)
		d.Fill(43, 130)
		by := cleanBy(w, d.ask(t, 50, 0))
		if want == 0 && !by.IsZero() || want > 0 && !by.Equal(d.Clock(want)) {
			t.Errorf("%s: clean by %v", says, by)
		}
	}
}
