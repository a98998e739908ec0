package daytest

import (
	"math"
	"testing"

	"potlife/schedule/session"
)

// Logger logs so many temperatures of the bath, evenly from one minute to another, as a thermometer that
// writes by itself: what is gives, and an error of up to 0.4 K.
func (d *Day) Logger(n int, from, to float64, is func(minutes float64) (celsius float64)) {
	for k := range n {
		at := from + (to-from)*float64(k)/float64(max(1, n-1))
		d.Temperature(at, is(at)+0.4*math.Sin(2.3*float64(k)))
	}
}

// KeepMany is [Day.Keep] for a day with thousands of events: each is written as it is, without asking
// whether it can follow those before, which takes the longer the more there are.
func (d *Day) KeepMany(t testing.TB) string {
	t.Helper()
	first := Day{W: d.W, Events: d.Events[:1]}
	folder := first.Keep(t)
	s, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, e := range d.Events[1:] {
		e.Seq = 0 // the journal gives it
		if _, err := s.Journal.Append(func([]session.Entry) (any, error) { return e, nil }); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}
