package session

import (
	"strings"
	"testing"
	"time"
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
		says string
	}{
		{"alone", []Event{mixed(2, 0, 80, 20)}, ""},
		{"at once", []Event{mixed(2, 0, 80, 20), mixed(3, 0, 80, 20)}, "event 2 says the same"},
		{"a step of the scale", []Event{mixed(2, 0, 80, 20), mixed(3, 15, 80.1, 20)}, "event 2 says the same"},
		{"two steps", []Event{mixed(2, 0, 80, 20), mixed(3, 0, 80.2, 20)}, ""},
		{"later", []Event{mixed(2, 0, 80, 20), mixed(3, 16, 80, 20)}, ""},
		{"told as of before", []Event{mixed(2, 10, 80, 20), mixed(3, 0, 80, 20)}, "event 2 says the same"},
		{"by its mass", []Event{mixed(2, 0, 80, 20), whole}, "event 2 says the same"},
		{"taken back", []Event{mixed(2, 0, 80, 20), undo, mixed(4, 4, 80, 20)}, ""},
		{"large, one after another", []Event{mixed(2, 0, 160, 40), mixed(3, 5, 160, 40)}, ""},
		{"large, too soon", []Event{mixed(2, 0, 160, 40), mixed(3, 4, 160, 40)}, "event 2 says the same"},
		{"poured together", []Event{mixed(2, 0, 80, 20), mixed(3, 5, 70, 17), poured(4, 10, 2), poured(5, 10, 3)}, "event 4 says that the pot of event 2 was poured then too"},
		{"poured in turn", []Event{mixed(2, 0, 80, 20), mixed(3, 5, 70, 17), poured(4, 10, 2), poured(5, 11, 3)}, ""},
		{"large, poured together", []Event{mixed(2, 0, 160, 40), mixed(3, 5, 160, 40), poured(4, 10, 2), poured(5, 10, 3)}, ""},
	} {
		got := setting.Twice(c.all[len(c.all)-1], c.all)
		if (got == "") != (c.says == "") || !strings.HasPrefix(got, c.says) {
			t.Errorf("%s: %q, want %q", c.name, got, c.says)
		}
	}
	if got := setting.Twice(Event{Seq: 9, Kind: Note, At: nine.Add(time.Minute)}, nil); got != "" {
		t.Errorf("a note: %q", got)
	}
}
