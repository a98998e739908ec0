package session

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestPotNumbers: pots count in the order in which they are logged, and keep their numbers
// whatever is taken back or told late; only the last one, logged again, has the same number.
func TestPotNumbers(t *testing.T) {
	s := newSession(t)
	log := func(kind Kind, minute, number int) Event {
		t.Helper()
		e, err := say(s, kind, minute, func(e *Event) {
			switch kind {
			case Poured:
				e.Pot = number
			case Undo:
				e.Of = number
			}
		})
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	mixed := func(minute, want int) Event {
		t.Helper()
		e := log(Mixed, minute, 0)
		if e.PotNumber != want {
			t.Errorf("mixed at %d min: pot %d, want %d", minute, e.PotNumber, want)
		}
		return e
	}
	one := mixed(1, 1)
	log(Undo, 2, one.Seq)
	one = mixed(2, 1)
	two := mixed(10, 2)
	late := mixed(5, 3) // it was mixed before the second
	log(Undo, 11, two.Seq)
	mixed(12, 4)
	if e := log(Poured, 13, late.Seq); e.PotNumber != 3 {
		t.Errorf("poured: pot %d", e.PotNumber)
	}
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	if next := NextPot(all); next != 5 {
		t.Errorf("the next is pot %d", next)
	}
	reopened, err := OpenFolder(s.Folder)
	if err != nil {
		t.Fatal(err)
	}
	defer reopened.Close()
	again, err := reopened.Events()
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range all {
		if again[i].PotNumber != e.PotNumber {
			t.Errorf("e%d: pot %d, read again %d", e.Seq, e.PotNumber, again[i].PotNumber)
		}
	}
	if got := all[one.Seq-1].PotNumber; got != 1 {
		t.Errorf("the first is pot %d by now", got)
	}
	lines, err := os.ReadFile(filepath.Join(s.Folder, Name))
	if err != nil || strings.Contains(string(lines), "pot_number") {
		t.Errorf("the journal has numbers that are given as it is read: %v\n%s", err, lines)
	}
}

// TestReadNumbers: poured takes the number of a pot and undo that of an event; a number that
// could mean something else is asked about with what each would do, and e4 never is.
func TestReadNumbers(t *testing.T) {
	at := func(seq int, kind Kind, pot int) Event {
		return Event{Seq: seq, Kind: kind, At: after(seq), Pot: pot}
	}
	// Pots 1 to 4 are e2, e3, e5 and e7.
	all := []Event{
		{Seq: 1, Kind: Started, At: nine, Layers: 3},
		at(2, Mixed, 0), at(3, Mixed, 0), at(4, Poured, 2), at(5, Mixed, 0), at(6, Poured, 3),
		at(7, Mixed, 0),
		{Seq: 8, Kind: Begin, Layer: 1, At: after(8)},
		at(9, Note, 0),
		{Seq: 10, Kind: Undo, Of: 9, At: after(10)},
	}
	NumberPots(all, 0)
	day, err := Through(all)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		words string
		want  int // the event meant; 0: refused
		says  []string
	}{
		{"poured 3", 5, nil},
		{"poured 4", 7, nil},
		{"poured 2", 3, nil}, // not e2
		{"poured e2", 2, nil},
		{"poured 7", 0, []string{"there is no pot 7, and e7 is pot 4\n", "potlife log poured 4 means pot 4, mixed at 09:07"}},
		{"poured 8", 0, []string{"there is no pot 8\n", "pot 3, mixed at 09:05; pot 4, mixed at 09:07"}},
		{"poured e", 0, []string{"e is no number of a pot"}},
		{"poured e0", 0, []string{"e0 is no number of a pot"}},
		{"poured 3 4", 0, []string{"3 4 is no number of a pot"}},
		{"spread 3", 5, nil},
		{"cured e7", 7, nil},
		{"thrown-out 7", 0, []string{"there is no pot 7, and e7 is pot 4\n", "potlife log thrown-out 4 means pot 4, mixed at 09:07"}},
		{"spread 8", 0, []string{"there is no pot 8\n", "write potlife log spread bath, or the number of a pot: pot 3, mixed at 09:05"}},
		{"cured cup", 0, []string{"cup is no number of a pot\n", "potlife log cured bath"}},
		{"spread bath 3", 0, []string{"bath 3 is no number of a pot\n", "potlife log spread bath"}},
		{"undo e3", 3, nil},
		{"undo 8", 8, nil}, // there is no pot 8
		{"undo 99", 99, nil},
		{"undo 4", 0, []string{"4 may be e4 or pot 4\n", "potlife log undo e4 takes back pot 1, poured at 09:04", "potlife log undo e7 takes back pot 4, mixed at 09:07"}},
		{"undo 3", 0, []string{"3 may be e3 or pot 3\n", "undo e3 takes back pot 2, mixed at 09:03", "undo e5 takes back pot 3, mixed at 09:05"}},
		{"undo 1", 0, []string{"1 is the number of a pot, and undo takes that of an event\n", "undo e2 takes back pot 1, mixed at 09:02"}},
		{"undo e", 0, []string{"e is no number of an event"}},
		{"undo -1", 0, []string{"-1 is no number of an event"}},
	} {
		e, err := Read(Setting{Zone: time.UTC}, Told{Words: strings.Fields(c.words), Now: after(20), Day: day, Events: all})
		if got := e.Pot + e.Of; err == nil && got != c.want || err != nil && c.want > 0 || err == nil && c.want == 0 {
			t.Errorf("%s: e%d, %v, want e%d", c.words, got, err, c.want)
			continue
		}
		for _, says := range c.says {
			if !strings.Contains(err.Error(), says) {
				t.Errorf("%s: %v, want %q in it", c.words, err, says)
			}
		}
	}
}

// TestReadBath: what is spread or taken away is the bath by its name, and left open where nothing
// is named.
func TestReadBath(t *testing.T) {
	for _, kind := range []Kind{Spread, ThrownOut, Cured} {
		for _, words := range [][]string{{string(kind)}, {string(kind), "bath"}} {
			e, err := Read(Setting{Zone: time.UTC}, Told{Words: words, Now: after(20)})
			if err != nil || e.Kind != kind || e.Bath != (len(words) > 1) || e.Pot != 0 {
				t.Errorf("%v: %+v, %v", words, e, err)
			}
		}
	}
}
