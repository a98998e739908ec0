package session

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// TestLineEndsOfAnotherSystem: a journal that git or an editor gave the line ends of Windows
// reads the same and is logged on to; a changed letter in it is refused all the same.
func TestLineEndsOfAnotherSystem(t *testing.T) {
	folder, j := emptyJournal(t)
	for n := range 3 {
		mustAppend(t, j, sample{N: n, Text: "tow broke"})
	}
	before := j.Entries()
	converted := bytes.ReplaceAll(contents(t, folder), []byte("\n"), []byte("\r\n"))
	path := filepath.Join(folder, Name)
	if err := os.WriteFile(path, converted, 0o644); err != nil {
		t.Fatal(err)
	}
	again, report := reopen(t, folder)
	if report.Cut != 0 || report.ReadOnly != nil {
		t.Errorf("reported: %+v", report)
	}
	for i, entry := range again.Entries() {
		if entry.Seq != before[i].Seq || !bytes.Equal(entry.Payload, before[i].Payload) {
			t.Errorf("entry %d is %s, was %s", i+1, entry.Payload, before[i].Payload)
		}
	}
	mustAppend(t, again, sample{N: 3, Text: "on it went"})
	if text := contents(t, folder); !bytes.HasPrefix(text, converted) {
		t.Error("what stood there was written again")
	}
	last, _ := reopen(t, folder)
	if n := len(last.Entries()); n != 4 {
		t.Errorf("%d entries, want 4", n)
	}
	spoilt := bytes.Replace(converted, []byte("tow broke"), []byte("tow brake"), 1)
	if err := os.WriteFile(path, spoilt, 0o644); err != nil {
		t.Fatal(err)
	}
	var damaged *Damaged
	if _, _, err := Open(folder); !errors.As(err, &damaged) || damaged.Line != 1 {
		t.Errorf("a changed letter: %v", err)
	}
}
