package report

import (
	"strings"
	"testing"

	"potlife/schedule/session"
)

// TestHappened: each event is told with its value; a journal of another hand may lack it.
func TestHappened(t *testing.T) {
	celsius, grams := 23.5, 180.0
	all := []session.Event{{Seq: 1, Kind: session.LeftOver, Grams: &grams}}
	for _, c := range []struct {
		e    session.Event
		want string
	}{
		{session.Event{Kind: session.Started, Job: "Strut", Layers: 6}, "session started: Strut, 6 layers"},
		{session.Event{Kind: session.Mixed, PotNumber: 1, ResinG: 445, HardenerG: 125}, "mixed pot 1, 570 g (445 g resin, 125 g hardener)"},
		{session.Event{Kind: session.Mixed, PotNumber: 12, MassG: 239.25, IsC: &celsius}, "mixed pot 12, 239.2 g, 23.5 °C in its cup"},
		{session.Event{Kind: session.Mixed, PotNumber: 2, MassG: 100, Lots: []session.Lot{{Part: "hardener", Name: "H1"}, {Part: "resin", Name: "A"}, {Part: "resin", Name: "B"}}}, "mixed pot 2, 100 g, resin A+B, hardener H1"},
		{session.Event{Kind: session.Poured, Pot: 8, PotNumber: 3}, "poured pot 3"},
		{session.Event{Kind: session.Mixed, MassG: 100}, "mixed 100 g"}, // left out of a journal
		{session.Event{Kind: session.Poured, Pot: 8}, "poured the pot of e8"},
		{session.Event{Kind: session.Begin, Layer: 3}, "begin layer 3"},
		{session.Event{Kind: session.Done, Layer: 3}, "done layer 3"},
		{session.Event{Kind: session.Pause, Text: "tow broke"}, "pause: tow broke"},
		{session.Event{Kind: session.Resume}, "resume"},
		{session.Event{Kind: session.Note, Text: "lot 7"}, "note: lot 7"},
		{session.Event{Kind: session.BathTemp, IsC: &celsius}, "bath 23.5 °C"},
		{session.Event{Kind: session.Room, IsC: &celsius}, "room 23.5 °C"},
		{session.Event{Kind: session.FlowCup, Cup: "iso-4", Seconds: 60, IsPaS: 0.0876}, "iso-4 in 60 s: 88 mPa·s"},
		{session.Event{Kind: session.Viscosity, IsPaS: 0.7}, "bath 700 mPa·s"},
		{session.Event{Kind: session.Changed}, "bath changed"},
		{session.Event{Kind: session.LeftOver, Grams: &grams}, "left-over 180 g"},
		{session.Event{Kind: session.Finish}, "session finished"},
		{session.Event{Kind: session.Undo, Of: 1}, "undo of e1, taken back: left-over 180 g"},
		{session.Event{Kind: session.Undo, Of: 9}, "undo of e9"}, // there is none
		{session.Event{Kind: session.Weighed}, "weighed"},
		{session.Event{Kind: session.BathTemp}, "bath-temp"},
		{session.Event{Kind: session.LeftOver}, "left-over"},
	} {
		if got := happenedFully(c.e, all); got != c.want {
			t.Errorf("%+v is told as %q, want %q", c.e, got, c.want)
		}
	}
	for _, kind := range session.Kinds {
		if text := Happened(session.Event{Kind: kind}); text == "" || strings.HasSuffix(text, ": ") {
			t.Errorf("%s is told as %q", kind, text)
		}
	}
}
