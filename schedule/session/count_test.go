package session

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestCutAtALineEnd: a journal of which lines were cut off is noticed, how many they may be, and
// also where nothing is left of it; so is one whose last line that was acknowledged is torn.
func TestCutAtALineEnd(t *testing.T) {
	text, entries, ends := history(t, 42)
	folder := t.TempDir()
	for lines, end := range ends[:len(ends)-1] {
		for _, tail := range []string{"", `{"seq":`} {
			place(t, folder, append(text[:end:end], tail...))
			placeFile(t, folder, CountName, countText(entries))
			_, _, err := openUnsynced(folder)
			var damaged *Damaged
			if !errors.As(err, &damaged) || damaged.Line != lines+1 || !strings.Contains(damaged.Problem, "42 lines were acknowledged") {
				t.Errorf("%d of 42 lines and %q: %v", lines, tail, err)
			}
		}
	}
}

// TestCountBehind: a kill between a line and its count, or in the count itself, is no damage and
// is mended by the next append. A count that is gone is warned of.
func TestCountBehind(t *testing.T) {
	text, entries, _ := history(t, 9)
	behind := func(n int) []byte { return countText(entries[:n]) }
	half := func(from, to []byte) []byte { return slices.Concat(to[:countRecord/2], from[countRecord/2:]) }
	for name, c := range map[string]struct {
		count []byte
		warns bool
	}{
		"whole":                    {behind(9), false},
		"one":                      {behind(8), false},
		"many":                     {behind(2), false},
		"the write of 8 cut short": {half(behind(7), behind(8)), false},
		"gone":                     {nil, true},
		"empty":                    {[]byte{}, true},
		"zeros":                    {make([]byte, 2*countRecord), true},
		"garbage":                  {[]byte(strings.Repeat("-17 x\n", 20)), true},
	} {
		folder := t.TempDir()
		place(t, folder, text)
		placeFile(t, folder, CountName, c.count)
		j, report := reopen(t, folder)
		if (len(report.Warnings()) > 0) != c.warns || report.Uncounted != c.warns || len(j.Entries()) != 9 {
			t.Errorf("%s: %+v", name, report)
		}
		mustAppend(t, j, sample{N: 10})
		if j.Report().Uncounted {
			t.Errorf("%s: it is not written again", name)
		}
		if kept, known := readCount(folder); !known || kept != countOf(j.Entries()) {
			t.Errorf("%s: after an append %+v", name, kept)
		}
	}
}

// TestCountCannotBeWritten: a count that the disk refuses keeps nobody from logging, and is told.
func TestCountCannotBeWritten(t *testing.T) {
	folder, j := emptyJournal(t)
	j.sync = func(*os.File) error { return errors.New("worn out") }
	mustAppend(t, j, sample{N: 1})
	if !j.Report().Uncounted {
		t.Error("it is not told")
	}
	again, _ := reopen(t, folder)
	if n := len(again.Entries()); n != 1 {
		t.Errorf("%d entries", n)
	}
}

// TestConfirmCounts: an entry that is acknowledged again is counted, though whoever wrote it was
// killed before.
func TestConfirmCounts(t *testing.T) {
	folder, j := emptyJournal(t)
	if _, err := j.AppendOnce("tap-1", always(sample{N: 1})); err != nil {
		t.Fatal(err)
	}
	placeFile(t, folder, CountName, count{sum: noLine}.record())
	if _, err := j.AppendOnce("tap-1", always(sample{N: 1})); err != nil {
		t.Fatal(err)
	}
	if kept, _ := readCount(folder); kept.lines != 1 {
		t.Errorf("acknowledged and not counted: %+v", kept)
	}
}

// TestChain: a line that is replaced by another one whose own checksum fits is found, at the
// line behind it or, being the last, by the count.
func TestChain(t *testing.T) {
	text, entries, _ := history(t, 6)
	other := func(seq int) []byte {
		line, _, err := encode(entries[:seq-1], "", sample{N: 100 + seq})
		if err != nil {
			t.Fatal(err)
		}
		return line
	}
	lines := bytes.SplitAfter(text, []byte("\n"))[:6]
	folder := t.TempDir()
	for replaced := 1; replaced <= 6; replaced++ {
		changed := slices.Clone(lines)
		changed[replaced-1] = other(replaced)
		place(t, folder, bytes.Join(changed, nil))
		placeFile(t, folder, CountName, countText(entries))
		_, _, err := openUnsynced(folder)
		var damaged *Damaged
		if want := min(replaced+1, 6); !errors.As(err, &damaged) || damaged.Line != want {
			t.Errorf("line %d is another one: %v", replaced, err)
		}
	}
}

// TestUnchained: a journal of before opens, goes on without chain and count, and is not
// suspected.
func TestUnchained(t *testing.T) {
	folder := t.TempDir()
	var text []byte
	for _, object := range []string{`{"seq":1,"n":1}`, `{"seq":2,"n":2,"after":"x"}`} {
		text = append(text, object+"\t"+checksum([]byte(object))+"\n"...)
	}
	place(t, folder, text)
	j, report := reopen(t, folder)
	if d := cmp.Diff(Report{}, report); d != "" {
		t.Error(d)
	}
	if entry := mustAppend(t, j, sample{N: 3}); entry.After != "" || bytes.Contains(entry.Payload, []byte("after")) {
		t.Errorf("logged %s", entry.Payload)
	}
	if isThere(filepath.Join(folder, CountName)) {
		t.Error("it has a count")
	}
	reopen(t, folder)
}

// TestLastLineWithoutItsNewline: where the checksum fits, the line counts, for whoever opens the
// journal then and for whoever had it open; the next event gets a line of its own.
func TestLastLineWithoutItsNewline(t *testing.T) {
	text, entries, _ := history(t, 4)
	for _, missing := range []string{"\n", "\r\n"} {
		folder := t.TempDir()
		whole := bytes.ReplaceAll(text, []byte("\n"), []byte(missing))
		place(t, folder, bytes.TrimSuffix(whole, []byte(missing)))
		placeFile(t, folder, CountName, countText(entries))
		j, report := reopen(t, folder)
		second, _ := reopen(t, folder)
		if report != (Report{}) {
			t.Errorf("report %+v", report)
		}
		sameEntries(t, entries, j.Entries())
		mustAppend(t, j, sample{N: 5})
		mustAppend(t, second, sample{N: 6})
		mustAppend(t, j, sample{N: 7})
		again, _ := reopen(t, folder)
		sameEntries(t, j.Entries(), again.Entries())
		if len(again.Entries()) != 7 || bytes.Contains(contents(t, folder), []byte("\n\n")) {
			t.Errorf("%q", contents(t, folder))
		}
	}
}

// TestReadingChangesNothing: whatever is open, asked and closed, a torn line stays where it is.
func TestReadingChangesNothing(t *testing.T) {
	s := newSession(t)
	path := filepath.Join(s.Folder, Name)
	if err := os.WriteFile(path, append(contents(t, s.Folder), `{"seq":2,"at"`...), 0o644); err != nil {
		t.Fatal(err)
	}
	before := inFolder(t, s.Folder)
	for range 2 {
		again, err := OpenFolder(s.Folder)
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Report.Warnings()) != 1 {
			t.Errorf("%+v", again.Report)
		}
		// What is refused logs nothing either.
		if _, err := again.Log(Event{Kind: Done, At: after(1), Logged: after(1)}); err == nil {
			t.Error("a layer that never began is done")
		}
		_ = again.TryAfter(1, Event{Kind: Note, Text: "x", At: after(1), Logged: after(1)})
		_ = again.Close()
	}
	if _, err := FindOpen(filepath.Dir(s.Folder)); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(before, inFolder(t, s.Folder)); d != "" {
		t.Error(d)
	}
}

// TestEmptySession: the journal of a session is never empty: what looks so was lost.
func TestEmptySession(t *testing.T) {
	s := newSession(t)
	for name, text := range map[string][]byte{"empty": {}, "zeros": make([]byte, 700)} {
		for _, counted := range [][]byte{nil, countText(s.Journal.Entries())} {
			placeFile(t, s.Folder, Name, text)
			placeFile(t, s.Folder, CountName, counted)
			_, err := OpenFolder(s.Folder)
			var damaged *Damaged
			if !errors.As(err, &damaged) || damaged.Line != 1 || damaged.Path == "" {
				t.Errorf("%s: %v", name, err)
			}
			if !bytes.Equal(contents(t, s.Folder), text) {
				t.Errorf("%s: it was changed", name)
			}
		}
	}
}
