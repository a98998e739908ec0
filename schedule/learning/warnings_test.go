package learning

import (
	"slices"
	"testing"

	"potlife/schedule"
)

// TestLacking: each lesson that sessions did not give is named, and no other.
func TestLacking(t *testing.T) {
	known := schedule.Lesson{Value: 1, Spread: 1.1, Sessions: 1}
	l := &schedule.Learned{LeftInCup: known}
	if got := Lacking(l); !slices.Equal(got, Warnings[:3]) {
		t.Errorf("%+v", got)
	}
	l.PickUp, l.Minutes, l.LeftInCup = known, known, schedule.Lesson{}
	if got := Lacking(l); !slices.Equal(got, Warnings[1:2]) {
		t.Errorf("%+v", got)
	}
}
