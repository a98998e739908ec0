package session

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/testrun"
)

// ageing makes the n-th event of a test's journal: lengths from nothing to some hundred
// bytes, in letters of one to four bytes.
func ageing(n int) sample {
	letters := []string{"x", "µ", "樹", "🧤", "\t", "\"", "é m "}
	return sample{N: n, Text: strings.Repeat(letters[n%len(letters)], (n*37)%211)}
}

// history logs n events and returns the entries, and the file's length after each.
func history(t testing.TB, n int) (text []byte, entries []Entry, ends []int) {
	t.Helper()
	folder, j := emptyJournal(t)
	ends = []int{0}
	for i := range n {
		if i%5 == 3 {
			if _, err := j.AppendOnce(strings.Repeat("k", i), always(ageing(i))); err != nil {
				t.Fatal(err)
			}
		} else {
			mustAppend(t, j, ageing(i))
		}
		ends = append(ends, len(contents(t, folder)))
	}
	return contents(t, folder), j.Entries(), ends
}

// unsynced is a file that does not wait for the disk: what these tests leave behind is
// read again by the same running system.
type unsynced struct{ file }

func (unsynced) Sync() error { return nil }

// openUnsynced is Open but for the syncs, which would take minutes over thousands of cuts.
func openUnsynced(folder string) (*Journal, Report, error) {
	path := filepath.Join(folder, Name)
	f, readOnly, err := openJournal(path)
	if err != nil {
		return nil, Report{}, err
	}
	j, report, err := readJournal(path, unsynced{f}, readOnly)
	if err == nil {
		j.sync = func(*os.File) error { return nil }
		j.syncFolder = func(string) error { return nil }
	}
	return j, report, err
}

// place puts a journal of this text into a folder, and no count of another one.
func place(t testing.TB, folder string, text []byte) {
	t.Helper()
	placeFile(t, folder, CountName, nil)
	placeFile(t, folder, Name, text)
	if text == nil {
		placeFile(t, folder, Name, []byte{})
	}
}

// placeFile puts a file into a folder, or none where there is no text.
func placeFile(t testing.TB, folder, name string, text []byte) {
	t.Helper()
	path := filepath.Join(folder, name)
	// Overwriting makes some file systems wait for the disk, a new file does not.
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	if text == nil {
		return
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
}

// TestEveryCut ends a journal at each of its bytes, as a kill or a power cut in the middle
// of that append would, and goes on from there.
func TestEveryCut(t *testing.T) {
	appends, least := testrun.Count(8, 40), testrun.Count(1500, 10_000)
	text, logged, ends := history(t, appends)
	if len(text) < least {
		t.Fatalf("only %d places to cut, want %d", len(text), least)
	}
	folder := t.TempDir()
	whole := 0 // lines in front of the cut
	for cut := range len(text) + 1 {
		end := ends[whole]
		// A line is whole without its newline.
		if whole < appends && cut >= ends[whole+1]-1 {
			whole++
			end = cut
		}
		place(t, folder, text[:cut])
		// The kill comes before the count, or with a new line half written.
		placeFile(t, folder, CountName, countText(logged[:max(0, whole-cut%2)]))
		goOn(t, folder, text[:cut], logged[:whole], text[max(end, min(ends[whole], cut)):cut])
		if t.Failed() {
			t.Fatalf("at byte %d, in the append of line %d", cut, whole+1)
		}
	}
	t.Logf("%d cut points in %d appends", len(text)+1, appends)
}

// goOn checks what Open makes of a journal that ends in a torn tail, logs an event, and
// checks that it reads back behind the acknowledged ones.
func goOn(t *testing.T, folder string, text []byte, acknowledged []Entry, torn []byte) {
	t.Helper()
	j, report, err := openUnsynced(folder)
	if err != nil {
		t.Error(err)
		return
	}
	defer j.Close()
	want := Report{Cut: len(torn), Tail: string(torn), Uncounted: report.Uncounted}
	if len(torn) > 0 {
		want.Line = len(acknowledged) + 1
	}
	if d := cmp.Diff(want, report); d != "" {
		t.Error("report:", d)
	}
	sameEntries(t, acknowledged, j.Entries())
	if after := contents(t, folder); !bytes.Equal(after, text) {
		t.Error("reading it has changed the journal")
	}
	next := mustAppend(t, j, sample{N: -1, Text: "next"})
	if len(torn) > 0 {
		kept, err := os.ReadFile(filepath.Join(folder, j.Report().Kept))
		if err != nil || !bytes.Equal(kept, torn) {
			t.Errorf("kept of %q: %q, %v", torn, kept, err)
		}
		_ = os.Remove(filepath.Join(folder, j.Report().Kept)) // the next cut is not to search for a name
	}
	again, report, err := openUnsynced(folder)
	if err != nil {
		t.Error(err)
		return
	}
	defer again.Close()
	if report != (Report{}) {
		t.Errorf("opened again, it reports %+v", report)
	}
	sameEntries(t, append(acknowledged[:len(acknowledged):len(acknowledged)], next), again.Entries())
}

func sameEntries(t testing.TB, want, got []Entry) {
	t.Helper()
	if len(want) != len(got) {
		t.Errorf("%d entries, want %d", len(got), len(want))
		return
	}
	for i := range want {
		if want[i].Seq != got[i].Seq || want[i].Key != got[i].Key || !bytes.Equal(want[i].Payload, got[i].Payload) {
			t.Errorf("entry %d is %d %s, want %d %s", i+1, got[i].Seq, got[i].Payload, want[i].Seq, want[i].Payload)
			return
		}
	}
}

// TestCutWhileOpen: a tail that a killed process left is cut by the next Append of one that
// had the journal open all the while.
func TestCutWhileOpen(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	line, _, err := encode(j.entries, "", sample{N: 2})
	if err != nil {
		t.Fatal(err)
	}
	torn := line[:len(line)/2]
	f, err := os.OpenFile(filepath.Join(folder, Name), os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write(torn); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if entry := mustAppend(t, j, sample{N: 3}); entry.Seq != 2 {
		t.Errorf("the next entry is %d, want 2", entry.Seq)
	}
	if d := cmp.Diff(Report{Cut: len(torn), Line: 2, Tail: string(torn), Kept: "journal.cut-1.jsonl"}, j.Report()); d != "" {
		t.Error(d)
	}
	again, _ := reopen(t, folder)
	sameEntries(t, j.Entries(), again.Entries())
}

// TestOpenWaitsTogether: a line that is just being written is not taken for a torn one.
func TestOpenWaitsTogether(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	started, opened := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(opened)
		<-started
		k, report, err := Open(folder)
		if err != nil || report != (Report{}) || len(k.Entries()) != 2 {
			t.Errorf("opened during an append: report %+v (%v)", report, err)
			return
		}
		_ = k.Close()
	}()
	j.file = halfway{j.file, func() {
		close(started)
		time.Sleep(30 * time.Millisecond) // an Open that does not wait reads half a line by now
	}}
	mustAppend(t, j, sample{N: 2})
	<-opened
	again, _ := reopen(t, folder)
	if n := len(again.Entries()); n != 2 {
		t.Errorf("%d entries, want 2", n)
	}
}

// halfway is a file that does something in the middle of a write.
type halfway struct {
	file
	do func()
}

func (h halfway) Write(line []byte) (int, error) {
	n, err := h.file.Write(line[:len(line)/2])
	if err != nil {
		return n, err
	}
	h.do()
	rest, err := h.file.Write(line[n:])
	return n + rest, err
}
