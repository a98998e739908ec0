package report

import (
	"testing"
	"time"

	"potlife/schedule/session/advice"
)

// TestPotWords: two pots cannot be read as one of twice the resin, and several cups are
// several pots.
func TestPotWords(t *testing.T) {
	pot := Parts{361, 101}
	for _, c := range []struct {
		cups []int
		mix  []Parts
		want string
	}{
		{nil, nil, ""},
		{nil, []Parts{pot}, "mix 361 g resin with 101 g hardener"},
		{nil, []Parts{pot, pot}, "mix two pots, each of 361 g resin and 101 g hardener"},
		{nil, []Parts{pot, {300, 84}}, "mix two pots: one of 361 g resin and 101 g hardener, one of 300 g resin and 84 g hardener"},
		{[]int{13}, nil, "pour pot 13"},
		{[]int{13, 14}, nil, "pour pots 13 and 14"},
		{[]int{3, 13, 14}, []Parts{pot}, "pour pots 3, 13 and 14 and mix 361 g resin with 101 g hardener"},
	} {
		if got := potWords(c.cups, c.mix); got != c.want {
			t.Errorf("%v, %v: %q, want %q", c.cups, c.mix, got, c.want)
		}
	}
	if got := counted(12); got != "12" {
		t.Errorf("twelve: %q", got)
	}
}

// TestThickness: what has gelled has no viscosity to be below.
func TestThickness(t *testing.T) {
	low, high := 0.5, 0.8
	for want, b := range map[string]CheckBath{
		"gelled":                       {},
		"500 mPa·s (perhaps gelled)":   {Viscosity: &low},
		"500 mPa·s (surely below 800)": {Viscosity: &low, ViscosityHi: &high},
	} {
		if got := b.thickness(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestWhatBegins: the latest time of a top-up says what is to be begun by then.
func TestWhatBegins(t *testing.T) {
	at := time.Date(2026, 11, 28, 7, 58, 0, 0, time.UTC)
	o := order{now: at, before: &at, rule: advice.TopUpFits, mix: []Parts{{361, 101}}}
	if got := o.by(); got != "Begin mixing by 07:58." {
		t.Error(got)
	}
	o.mix = nil
	if got := o.by(); got != "Pour by 07:58." {
		t.Error(got)
	}
}
