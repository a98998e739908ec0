package session

import (
	"slices"
	"testing"
	"time"

	"potlife/kinetics/warning"
)

// TestTwice: the same pot told again, and two pots poured in one minute, are asked about; not
// pots that a plan mixes one after another, nor what was taken back.
func TestTwice(t *testing.T) {
	setting := Setting{Largest: 0.25, Scale: 1e-4, Mixing: 300}
	mixed := func(seq, minute int, resin, hardener float64) Event {
		return Event{Seq: seq, Kind: Mixed, At: after(minute), ResinG: resin, HardenerG: hardener}
	}
	poured := func(seq, minute, pot int) Event { return Event{Seq: seq, Kind: Poured, At: after(minute), Pot: pot} }
	whole := Event{Seq: 3, Kind: Mixed, At: after(2), MassG: 100}
	undo := Event{Seq: 3, Kind: Undo, At: after(3), Of: 2}
	for _, c := range []struct {
		name string
		all  []Event
		want []warning.Warning
	}{
		{"alone", []Event{mixed(2, 0, 80, 20)}, nil},
		{"at once", []Event{mixed(2, 0, 80, 20), mixed(3, 0, 80, 20)}, []warning.Warning{MixedTwice{Event: 2}}},
		{"a step of the scale", []Event{mixed(2, 0, 80, 20), mixed(3, 15, 80.1, 20)}, []warning.Warning{MixedTwice{Event: 2}}},
		{"two steps", []Event{mixed(2, 0, 80, 20), mixed(3, 0, 80.2, 20)}, nil},
		{"later", []Event{mixed(2, 0, 80, 20), mixed(3, 16, 80, 20)}, nil},
		{"told as of before", []Event{mixed(2, 10, 80, 20), mixed(3, 0, 80, 20)}, []warning.Warning{MixedTwice{Event: 2}}},
		{"by its mass", []Event{mixed(2, 0, 80, 20), whole}, []warning.Warning{MixedTwice{Event: 2}}},
		{"taken back", []Event{mixed(2, 0, 80, 20), undo, mixed(4, 4, 80, 20)}, nil},
		{"large, one after another", []Event{mixed(2, 0, 160, 40), mixed(3, 5, 160, 40)}, nil},
		{"large, too soon", []Event{mixed(2, 0, 160, 40), mixed(3, 4, 160, 40)}, []warning.Warning{MixedTwice{Event: 2}}},
		{"poured together", []Event{mixed(2, 0, 80, 20), mixed(3, 5, 70, 17), poured(4, 10, 2), poured(5, 10, 3)}, []warning.Warning{PouredTwice{Event: 4, Pot: 1}}},
		{"poured in turn", []Event{mixed(2, 0, 80, 20), mixed(3, 5, 70, 17), poured(4, 10, 2), poured(5, 11, 3)}, nil},
		{"large, poured together", []Event{mixed(2, 0, 160, 40), mixed(3, 5, 160, 40), poured(4, 10, 2), poured(5, 10, 3)}, nil},
	} {
		NumberPots(c.all, 0)
		got := setting.Twice(c.all[len(c.all)-1], c.all)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
	if got := setting.Twice(Event{Seq: 9, Kind: Note, At: nine.Add(time.Minute)}, nil); len(got) > 0 {
		t.Errorf("a note: %+v", got)
	}
}
