package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestLifeEndsByTheFirstLimit: each limit in turn is the first, and the life ends
// when [vessel.Bath.TimeTo] reaches that end point. Both find it on the same
// steps; 1e-9 is the root finder.
func TestLifeEndsByTheFirstLimit(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0.5, 23)
	thick, hot := far(), far()
	thick.BathViscosity = 1.5
	hot.BathTemperature = quantity.Celsius(32)
	for _, c := range []struct {
		limits vessel.Limits
		by     vessel.Limit
		end    vessel.EndPoint
	}{
		{thick, vessel.BathViscosity, vessel.EndPoint{Viscosity: 1.5}},
		{hot, vessel.BathTemperature, vessel.EndPoint{Temperature: quantity.Celsius(32)}},
		{far(), vessel.Gel, vessel.EndPoint{Gel: true}},
	} {
		life := lifeOf(t, b, s, vessel.Tow{}, c.limits)
		if life.EndsBy != c.by || life.Over() {
			t.Errorf("ends by %q after %g s, want by %q", life.EndsBy, float64(life.Left), c.by)
		}
		near(t, string(c.by), float64(life.Left), float64(until(t, b, s, c.end)), 1e-9)
	}
}

// TestLaidViscosityIsTakenAtTheMandrel: a bath warmer than the mandrel may be thin
// and its resin too far gone to lay.
func TestLaidViscosityIsTakenAtTheMandrel(t *testing.T) {
	r := medium()
	b, s := inRoom(r, tray(), 23), fresh(0.5, 23)
	l := far()
	l.LaidViscosity, l.Mandrel = 1.2, vessel.Constant(quantity.Celsius(20))
	life := lifeOf(t, b, s, vessel.Tow{}, l)
	if life.EndsBy != vessel.LaidViscosity {
		t.Fatalf("ends by %q, want %q", life.EndsBy, vessel.LaidViscosity)
	}
	at := advanced(t, b, s, 0, life.Left, vessel.Tow{})
	at.Temperature = quantity.Celsius(20)
	// Advance takes other steps: 2e-5 in α is 1e-4 in ln η here.
	near(t, "η on the mandrel at the end", float64(at.Viscosity(&r)), 1.2, 2e-4)
}

// TestMandrelThatCoolsInPassing: the laid limit follows the mandrel's own
// temperature, however short its dip is beside the steps of a quiet bath.
func TestMandrelThatCoolsInPassing(t *testing.T) {
	slow := medium()
	slow.Cure = slow.Cure.Scaled(0.02)
	b, s := inRoom(slow, tray(), 23), fresh(0.5, 23)
	l := far()
	l.LaidViscosity = 1.2
	for _, dip := range []quantity.Time{30, 5 * minute, hour} {
		mandrel, err := vessel.NewSeries(
			[]quantity.Time{0, 3 * hour, 3*hour + dip, 3*hour + 2*dip},
			[]quantity.Temperature{quantity.Celsius(23), quantity.Celsius(23), quantity.Celsius(13), quantity.Celsius(23)})
		if err != nil {
			t.Fatal(err)
		}
		l.Mandrel = mandrel
		life := lifeOf(t, b, s, vessel.Tow{}, l)
		if life.EndsBy != vessel.LaidViscosity || !(life.Left > 3*hour && life.Left < 3*hour+dip) {
			t.Errorf("dip of %g s: ends by %q after %g s, want by laid viscosity on the way down", float64(dip), life.EndsBy, float64(life.Left))
		}
	}
}

// TestFallingBackDoesNotUndo: a small mass passes its limit, burns out and cools
// below it again; its life ended all the same, and a watch that goes on keeps
// the first end.
func TestFallingBackDoesNotUndo(t *testing.T) {
	r := medium()
	r.Viscosity = kinetics.DualArrhenius{Flow: kinetics.Flow{At: 298.15, Value: 0.6, Activation: 70000}}
	r.Gel = 0.9999
	b, s := inRoom(r, tray(), 23), fresh(0.5, 23)
	l := far()
	l.BathTemperature = quantity.Celsius(35)
	life := lifeOf(t, b, s, vessel.Tow{}, l)
	w := vessel.NewWatch(b, l)
	state := s
	var now quantity.Time
	for range 40 { // an end stops the watch within its step, so ask again
		var err error
		if state, now, err = w.Advance(state, now, 24*hour, vessel.Tow{}); err != nil {
			t.Fatal(err)
		}
	}
	cooled := advanced(t, b, s, 0, 24*hour, vessel.Tow{})
	if !(cooled.Temperature < l.BathTemperature) {
		t.Fatalf("after a day the bath has %v, want it below its limit again", cooled.Temperature)
	}
	by, at := w.End()
	if by != vessel.BathTemperature || at != life.Left || life.EndsBy != by {
		t.Errorf("the watch ends by %q at %g s, the life by %q at %g s", by, float64(at), life.EndsBy, float64(life.Left))
	}
}

// TestAboveALimitFromTheStart: no excess but viscosity is forgiven.
func TestAboveALimitFromTheStart(t *testing.T) {
	hot, cold, gelled := fresh(0.5, 41), fresh(0.5, 10), fresh(0.5, 23)
	gelled.Alpha = 0.6
	laid := usual(-10) // thin in the bath, far too thick on the mandrel
	laid.BathViscosity = 100
	for _, c := range []struct {
		what   string
		room   float64
		state  vessel.State
		limits vessel.Limits
		by     vessel.Limit
	}{
		{"too hot", 10, hot, usual(35), vessel.BathTemperature}, // it cools below the limit, in vain
		{"too thick to lay", 40, cold, laid, vessel.LaidViscosity},
		{"gelled", 23, gelled, usual(23), vessel.Gel},
		{"too thick for bath and mandrel", 40, cold, usual(-10), vessel.LaidViscosity},
	} {
		b := inRoom(medium(), tray(), c.room)
		life := lifeOf(t, b, c.state, vessel.Tow{}, c.limits)
		if life.Left != 0 || life.EndsBy != c.by || !life.Over() {
			t.Errorf("%s: %g s left, ends by %q, want none by %q", c.what, float64(life.Left), life.EndsBy, c.by)
		}
	}
}

// TestLimitThatIsNoNumber: a limit nobody can be within leaves no life, rather
// than one without end.
func TestLimitThatIsNoNumber(t *testing.T) {
	nan := math.NaN()
	for i, set := range []func(*vessel.Limits){
		func(l *vessel.Limits) { l.BathViscosity = quantity.Viscosity(nan) },
		func(l *vessel.Limits) { l.LaidViscosity = -1 },
		func(l *vessel.Limits) { l.BathTemperature = quantity.Temperature(nan) },
		func(l *vessel.Limits) { l.BathViscosity = 0 },
	} {
		l := usual(23)
		set(&l)
		if life := lifeOf(t, inRoom(medium(), tray(), 23), fresh(0.5, 23), vessel.Tow{}, l); life.Left != 0 || life.EndsBy == vessel.NoLimit {
			t.Errorf("limit %d: %g s left, ends by %q, want no life", i, float64(life.Left), life.EndsBy)
		}
	}
}

// TestNothingReached: beyond the horizon nothing is looked for.
func TestNothingReached(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0.5, 23)
	for _, horizon := range []quantity.Time{0, minute} {
		life, err := b.Life(s, 0, vessel.Tow{}, 0.1, usual(23), horizon)
		if err != nil || !math.IsInf(float64(life.Left), 1) || life.EndsBy != vessel.NoLimit || life.Over() {
			t.Errorf("horizon %g s: %+v, %v, want a life without end", float64(horizon), life, err)
		}
	}
}

// TestLifeCountsFromNow: in a room that does not change, when a life begins makes
// no difference to its length.
func TestLifeCountsFromNow(t *testing.T) {
	b, s := inRoom(medium(), tray(), 23), fresh(0.5, 23)
	now, err := b.Life(s, 0, vessel.Tow{}, 0.1, usual(23), 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	later, err := b.Life(s, 5*hour, vessel.Tow{}, 0.1, usual(23), 24*hour)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a life begun later", float64(later.Left), float64(now.Left), 1e-9)
}
