package session

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// sayings are events as a crew tells them, a line each: words, and options after two
// hyphens as the command line has them.
var sayings = []string{
	"mixed 239.3g\npoured\nbegin\nbath-temp 24.5C\npause tow broke\nresume\ndone\nfinish",
	"mixed --resin 193g --hardener 46.3g --temp 25C\npoured 1 --at 09:05\nbegin 1\ndone 1\nundo e5\nundo",
	"mixed 239.3g --lot resin=R2217,expires=2025-12\nmixed 239.3g --lot hardener=H 0450\npoured --lot resin=R2217\nmixed 5g --lot R2217",
	"mixed 1e-300 g\nleft-over 0 g\nleft-over -0 g\nroom -20 °C\nviscosity 0.0001 Pa·s\nflow-cup iso-6 62s\nflow-cup zahn-2 1 min 2 s",
	"note \u2028\nbegin 99999999999999999999\nbegin 9223372036854775807\npoured -1\npoured e-1\ndone 1\nundo e1\nundo 2",
	"weighed\nstart\nmixed --resin 1g\nmixed 5 g --hardener 5 g\nbath-temp 24.5C --temp 3C\nnote x --at 23:59\nmixed --at 02:30 2 kg",
	"mixed 100 g --at 08:59\nmixed 100 g --at 09:00:00.5\nmixed 100 g --at 2026-11-28T08:00:01Z\nmixed 100 g --at 2026-11-28 09:00:30\npoured --at 09:00:45",
}

// told cuts a line into words and options.
func told(line string, now time.Time) Told {
	s, lot := Told{Now: now}, ""
	options := map[string]*string{"--at": &s.At, "--resin": &s.Resin, "--hardener": &s.Hardener, "--temp": &s.Temperature, "--lot": &lot}
	into := (*string)(nil)
	for _, word := range strings.Split(line, " ") {
		switch option := options[word]; {
		case option != nil:
			into = option
		case into == nil:
			s.Words = append(s.Words, word)
		case *into == "":
			*into = word
		default:
			*into += " " + word
		}
	}
	if lot != "" {
		s.Lots = []string{lot}
	}
	return s
}

// mended fails the test unless an error says what is wrong and what to do about it.
func mended(t *testing.T, line string, err error) {
	t.Helper()
	var refusal *Refusal
	var text *quantity.Error
	switch {
	case errors.As(err, &refusal) && refusal.Problem != "" && refusal.Mend != "":
	case errors.As(err, &text) && text.Problem != "" && text.Mend != "":
	case strings.HasPrefix(err.Error(), "--at: ") && strings.Contains(err.Error(), "\n   "):
	default:
		t.Fatalf("%q: %v is no refusal with a mend", line, err)
	}
}

// FuzzTold: whatever a crew tells line by line, each is refused with a mend, or is an event
// that is finite, can have happened, warns of nothing without a reason, and is read from its
// line of the journal as it was; the day is the same in whatever pieces it is played.
func FuzzTold(f *testing.F) {
	for _, text := range sayings {
		f.Add(text)
	}
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		f.Fatal(err)
	}
	setting := Setting{Zone: zone, Density: 1110, Mix: resins.Mix{Resin: resins.Part{ByMass: 100, Density: 1130}, Hardener: resins.Part{ByMass: 24, Density: 920}}, Tolerance: 0.02, Largest: 0.25}
	nine := time.Date(2026, 11, 28, 9, 0, 0, 0, zone)
	f.Fuzz(func(t *testing.T, text string) {
		all := []Event{{Seq: 1, Kind: Started, At: nine, Logged: nine, Layers: 3}}
		lines := strings.Split(text, "\n")
		for i, line := range lines[:min(len(lines), 40)] { // the rest finds nothing new
			said := told(line, nine.Add(time.Duration(i+1)*time.Minute))
			said.Events = all
			e, err := Read(setting, said)
			if err == nil {
				e, err = complete(all, e)
			}
			if err != nil {
				mended(t, line, err)
				continue
			}
			finite(t, line, e)
			written, entry, err := encode(make([]Entry, len(all)), "", e)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			read, err := events([]Entry{entry})
			if err != nil {
				t.Fatalf("%q is written as %s and refused: %v", line, written, err)
			}
			same(t, e, read[0])
			all = append(all, read[0])
			NumberPots(all, len(all)-1)
			day, err := Through(all)
			if err != nil {
				t.Fatalf("%q was accepted: %v", line, err)
			}
			for _, w := range setting.Warnings(read[0], day) {
				if text := fmt.Sprintf("%+v", w); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
					t.Fatal(text)
				}
			}
			if day.InHand < 0 || day.InHand > 3 || day.LastDone > 3 || day.InHand > 0 && day.InHand != day.LastDone+1 {
				t.Fatalf("after %q: %+v", line, day)
			}
		}
	})
}

func finite(t *testing.T, line string, e Event) {
	t.Helper()
	for _, x := range []*float64{&e.MassG, &e.ResinG, &e.HardenerG, e.IsC, &e.Seconds, &e.IsPaS, e.Grams} {
		if x != nil && (math.IsNaN(*x) || math.IsInf(*x, 0)) {
			t.Fatalf("%q is %+v", line, e)
		}
	}
	if e.MassG < 0 || e.ResinG < 0 || e.HardenerG < 0 || e.Grams != nil && *e.Grams < 0 || e.Layer < 0 || e.Pot < 0 {
		t.Fatalf("%q is %+v", line, e)
	}
}

// same compares an event with what its line gives; times compare as moments.
func same(t *testing.T, was, is Event) {
	t.Helper()
	if !was.At.Equal(is.At) || !was.Logged.Equal(is.Logged) {
		t.Fatalf("%v, logged %v, is read as %v, %v", was.At, was.Logged, is.At, is.Logged)
	}
	was.Seq, was.At, was.Logged = is.Seq, is.At, is.Logged
	if !reflect.DeepEqual(was, is) {
		t.Fatalf("%+v is read as %+v", was, is)
	}
}

// FuzzLines: whatever objects a journal holds whose checksums fit, as one of a later version
// might, they are read or refused; what is read is played or refused, and a next event is
// accepted only where the day can still be played with it.
func FuzzLines(f *testing.F) {
	for _, text := range []string{
		`{"kind":"start","at":"2026-11-28T09:00:00+01:00","layers":3}` + "\n" + `{"kind":"mixed","at":"2026-11-28T09:01:00+01:00","mass_g":-1e308}` + "\n" + `{"kind":"poured","pot":2,"at":"2026-11-28T09:02:00+01:00"}`,
		`{"kind":"undo","of":1}` + "\n" + `{"kind":"undo","of":-5}` + "\n" + `{"kind":"start"}`, `{"kind":"weighed","weights":{"part_g":1e308,"tows":-3}}` + "\n" + `{"kind":"weighed","weights":null}`,
		`{"kind":5}`, `{"kind":"start","layers":-9,"fibre":{"tex":-1}}` + "\n" + `{"kind":"begin","layer":-8}` + "\n" + `{"kind":"done"}`, `[]`, `{"zone":"../../etc/passwd","kind":"start","at":"0000-01-01T00:00:00Z"}`,
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var entries []Entry
		for line := range strings.SplitSeq(text, "\n") {
			var object map[string]json.RawMessage
			if json.Unmarshal([]byte(line), &object) != nil || len(entries) >= 40 {
				continue
			}
			if _, entry, err := encode(entries, "", object); err == nil {
				entries = append(entries, entry)
			}
		}
		all, err := events(entries)
		if err != nil {
			return
		}
		for _, e := range all {
			if e.Kind == Started {
				if place := e.place(); place.Local == nil {
					t.Fatalf("%+v has no place", e)
				}
			}
		}
		_ = WeightsOf(all)
		if _, err := Through(all); err != nil {
			mended(t, text, err)
			return
		}
		for _, kind := range Kinds {
			e, err := complete(all, Event{Kind: kind, At: nine, Logged: nine})
			if err != nil {
				mended(t, string(kind), err)
				continue
			}
			e.Seq = len(all) + 1
			if _, err := Through(append(all[:len(all):len(all)], e)); err != nil {
				t.Fatalf("%s was accepted: %v", kind, err)
			}
		}
	})
}
