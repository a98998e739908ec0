package replay

import (
	"testing"
	"time"

	"potlife/schedule/session"
)

// TestHandsFull: alone, the machine stands while something is mixed or poured, to the next that is
// logged of it at most, and runs again whether anything is logged after it or not.
func TestHandsFull(t *testing.T) {
	at := func(minutes float64) time.Time {
		return time.Unix(0, 0).Add(time.Duration(minutes * float64(time.Minute)))
	}
	event := func(kind session.Kind, minutes float64) session.Event {
		return session.Event{Seq: 1, Kind: kind, At: at(minutes)}
	}
	for _, c := range []struct {
		name string
		day  []session.Event
		now  float64
		want []session.Event // those that are added
	}{
		{"before a layer", []session.Event{event(session.Mixed, 0), event(session.Poured, 5), event(session.Begin, 8)}, 60, nil},
		{
			"in a layer, and nothing after it",
			[]session.Event{event(session.Begin, 0), event(session.Mixed, 10)},
			60,
			[]session.Event{{Kind: session.Pause, At: at(10)}, {Kind: session.Resume, At: at(15)}},
		},
		{"not over yet", []session.Event{event(session.Begin, 0), event(session.Mixed, 10)}, 14, []session.Event{{Kind: session.Pause, At: at(10)}}},
		{
			"two pots one after the other, and poured",
			[]session.Event{event(session.Begin, 0), event(session.Mixed, 10), event(session.Mixed, 15), event(session.Poured, 20), event(session.Note, 40)},
			60,
			[]session.Event{
				{Kind: session.Pause, At: at(10)},
				{Kind: session.Resume, At: at(15)},
				{Kind: session.Pause, At: at(15)},
				{Kind: session.Resume, At: at(20)},
				{Kind: session.Pause, At: at(20)},
				{Kind: session.Resume, At: at(21)},
			},
		},
		{"done before it is over", []session.Event{event(session.Begin, 0), event(session.Mixed, 10), event(session.Done, 12)}, 60, []session.Event{{Kind: session.Pause, At: at(10)}}},
		{"while it is stopped", []session.Event{event(session.Begin, 0), event(session.Pause, 5), event(session.Mixed, 10)}, 60, nil},
	} {
		var added []session.Event
		for _, e := range handsFull(c.day, 300, 60, at(c.now)) {
			if e.Seq == 0 {
				added = append(added, e)
			}
		}
		same := len(added) == len(c.want)
		for i := range added {
			same = same && added[i].Kind == c.want[i].Kind && added[i].At.Equal(c.want[i].At)
		}
		if !same {
			t.Errorf("%s: %+v, want %+v", c.name, added, c.want)
		}
	}
}
