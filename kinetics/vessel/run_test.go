package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

const (
	minute quantity.Time = 60
	hour   quantity.Time = 3600
)

// tray is an ordinary bath.
func tray() vessel.Vessel {
	return vessel.Tray(0.3, 0.12, vessel.UsualTraySurfaceLoss, vessel.UsualTrayWallLoss)
}

// inRoom is a bath at Working precision in a room that does not change.
func inRoom(r kinetics.Resin, v vessel.Vessel, celsius float64) *vessel.Bath {
	room := vessel.Constant(quantity.Celsius(celsius))
	return vessel.New(r, v, room, room, vessel.Working)
}

func fresh(mass quantity.Mass, celsius float64) vessel.State {
	return vessel.State{Mass: mass, Temperature: quantity.Celsius(celsius)}
}

// usual are the usual limits with the mandrel at a temperature.
func usual(mandrelCelsius float64) vessel.Limits {
	return vessel.Limits{
		BathViscosity: vessel.UsualBathViscosity, LaidViscosity: vessel.UsualLaidViscosity,
		BathTemperature: vessel.UsualBathTemperature, Mandrel: vessel.Constant(quantity.Celsius(mandrelCelsius)),
	}
}

// far are limits that nothing reaches but gel.
func far() vessel.Limits {
	l := usual(25)
	l.BathViscosity, l.LaidViscosity, l.BathTemperature = unreachedPaS, unreachedPaS, unreachedKelvin
	return l
}

// fataler is what a test and a property have in common.
type fataler interface {
	Helper()
	Fatal(args ...any)
}

func lifeOf(t fataler, b *vessel.Bath, s vessel.State, tow vessel.Tow, l vessel.Limits) vessel.Life {
	t.Helper()
	life, err := b.Life(s, 0, tow, 0.05, l, 48*hour)
	if err != nil {
		t.Fatal(err)
	}
	return life
}

func gelOf(t fataler, b *vessel.Bath, s vessel.State) quantity.Time {
	t.Helper()
	return until(t, b, s, vessel.EndPoint{Gel: true})
}

func until(t fataler, b *vessel.Bath, s vessel.State, end vessel.EndPoint) quantity.Time {
	t.Helper()
	at, err := b.TimeTo(end, s, 0, 48*hour)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func advanced(t fataler, b *vessel.Bath, s vessel.State, from, to quantity.Time, tow vessel.Tow) vessel.State {
	t.Helper()
	next, err := b.Advance(s, from, to, tow)
	if err != nil {
		t.Fatal(err)
	}
	return next
}

// near checks got against want within a relative tolerance.
func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, relative)
	}
}
