package session

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/outside"
)

// event is a payload as a command might write it; n tells the events of a test apart.
type sample struct {
	N    int    `json:"n"`
	Text string `json:"text"`
}

// always makes a decide that has nothing against payload.
func always(payload any) func([]Entry) (any, error) {
	return func([]Entry) (any, error) { return payload, nil }
}

func emptyJournal(t testing.TB) (folder string, j *Journal) {
	t.Helper()
	folder = t.TempDir()
	j, err := Create(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	return folder, j
}

func reopen(t testing.TB, folder string) (*Journal, Report) {
	t.Helper()
	j, report, err := Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	return j, report
}

func mustAppend(t testing.TB, j *Journal, payload any) Entry {
	t.Helper()
	entry, err := j.Append(always(payload))
	if err != nil {
		t.Fatal(err)
	}
	return entry
}

func contents(t testing.TB, folder string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, Name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// TestRoundTrip writes payloads of many forms, among them fields that no version knows,
// and reads them back byte for byte.
func TestRoundTrip(t *testing.T) {
	folder, j := emptyJournal(t)
	payloads := []struct{ in, stored string }{
		{`{}`, `{"seq":1,"after":"00000000"}`},
		{`{"at":"2026-11-28T09:14:00+01:00","kind":"note"}`, `{"seq":2,"after":"BEFORE","at":"2026-11-28T09:14:00+01:00","kind":"note"}`},
		{"{ \"mass_kg\" : 0.1200,\n \"later\": {\"z\":[1,2.50,1e3,null]} }", `{"seq":3,"after":"BEFORE","mass_kg":0.1200,"later":{"z":[1,2.50,1e3,null]}}`},
		{`{"text":"Zähflüssig: 5 µm <&> 樹脂 🧤\ttab\nline"}`, `{"seq":4,"after":"BEFORE","text":"Zähflüssig: 5 µm <&> 樹脂 🧤\ttab\nline"}`},
		{`{"text":"\u2028\u0000\"\\"}`, `{"seq":5,"after":"BEFORE","text":"\u2028\u0000\"\\"}`},
	}
	var logged []Entry
	for i, p := range payloads {
		if i > 0 {
			p.stored = strings.Replace(p.stored, "BEFORE", checksum(logged[i-1].Payload), 1)
		}
		entry := mustAppend(t, j, json.RawMessage(p.in))
		if entry.Seq != i+1 || string(entry.Payload) != p.stored {
			t.Errorf("entry %d is %d %s, want %s", i+1, entry.Seq, entry.Payload, p.stored)
		}
		logged = append(logged, entry)
	}
	again, report := reopen(t, folder)
	if d := cmp.Diff(Report{}, report); d != "" {
		t.Error("a whole journal is reported on:", d)
	}
	for _, entries := range [][]Entry{j.Entries(), again.Entries()} {
		if d := cmp.Diff(logged, entries); d != "" {
			t.Error(d)
		}
	}
}

// TestLineForm pins the form on disk. The checksum of "123456789" is the check value that
// the catalogue of parametrised CRC algorithms gives for CRC-32/ISCSI, e3069283, as test
// suites of public programs quote it.
func TestLineForm(t *testing.T) {
	outside.CheckText(t, outside.Row{
		ID: "files/crc/check", Subject: outside.Files, Source: "crccatalogue", Where: "CRC-32/ISCSI, check", Mark: outside.Seen,
		What: "checksum of the digits 1 to 9", Printed: "e3069283",
	}, checksum([]byte("123456789")))
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 7, Text: "a"})
	if _, err := j.AppendOnce("tap-1", always(sample{N: 8})); err != nil {
		t.Fatal(err)
	}
	first := `{"seq":1,"after":"00000000","n":7,"text":"a"}`
	objects := []string{first, `{"seq":2,"after":"` + checksum([]byte(first)) + `","key":"tap-1","n":8,"text":""}`}
	var want strings.Builder
	for _, object := range objects {
		fmt.Fprintf(&want, "%s\t%s\n", object, checksum([]byte(object)))
	}
	if d := cmp.Diff(want.String(), string(contents(t, folder))); d != "" {
		t.Error(d)
	}
}

// TestRefused: what cannot be an entry, or what decide is against, leaves the file as it
// was and the journal usable.
func TestRefused(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	before := contents(t, folder)
	against := errors.New("poured before it was mixed")
	for name, decide := range map[string]func([]Entry) (any, error){
		"decide's own error": func([]Entry) (any, error) { return nil, against },
		"nil":                always(nil),
		"list":               always([]int{1}),
		"number":             always(3),
		"broken JSON":        always(json.RawMessage(`{"a":`)),
		"two objects":        always(json.RawMessage(`{}{}`)),
		"own seq":            always(map[string]int{"seq": 1}),
		"own Seq":            always(map[string]int{"Seq": 1}),
		"own after":          always(map[string]string{"after": "x"}),
		"own key":            always(map[string]string{"key": "x"}),
		"not JSON":           always(map[string]any{"f": func() {}}),
		"too long":           always(sample{Text: strings.Repeat("x", LongestLine)}),
		"too deep":           always(json.RawMessage(`{"a":` + strings.Repeat("[", 20000) + strings.Repeat("]", 20000) + `}`)),
	} {
		if entry, err := j.Append(decide); err == nil {
			t.Errorf("%s: logged as %s", name, entry.Payload)
		} else if name == "decide's own error" && !errors.Is(err, against) {
			t.Errorf("%s: became %v", name, err)
		}
	}
	if _, err := j.AppendOnce("", always(sample{})); err == nil {
		t.Error("an empty key is taken")
	}
	if !bytes.Equal(contents(t, folder), before) {
		t.Error("a refused event changed the file")
	}
	if entry := mustAppend(t, j, sample{N: 2}); entry.Seq != 2 {
		t.Errorf("the next entry is %d, want 2", entry.Seq)
	}
}

// TestLongestLine: a line of just the greatest length is written and read, one byte more
// is refused; and a journal longer than one window of reading is read.
func TestLongestLine(t *testing.T) {
	folder, j := emptyJournal(t)
	frame := len(`{"seq":1,"after":"00000000","n":0,"text":""}`) + len("\t") + sumDigits + len("\n")
	longest := sample{Text: strings.Repeat("x", LongestLine-frame)}
	if _, err := j.Append(always(sample{Text: longest.Text + "x"})); err == nil {
		t.Error("a line of one byte too many is written")
	}
	const lines = 3*readWindow/LongestLine - 3
	for range lines {
		mustAppend(t, j, longest)
	}
	if n := len(contents(t, folder)); n <= 2*readWindow {
		t.Fatalf("%d bytes do not try the reading in windows", n)
	}
	again, _ := reopen(t, folder)
	if n := len(again.Entries()); n != lines {
		t.Errorf("%d entries read, want %d", n, lines)
	}
}

// TestOnce: the same key, from any handle, gives the first entry and logs nothing.
func TestOnce(t *testing.T) {
	folder, j := emptyJournal(t)
	other, _ := reopen(t, folder)
	first, err := j.AppendOnce("tap-1", always(sample{N: 1}))
	if err != nil {
		t.Fatal(err)
	}
	mustAppend(t, j, sample{N: 2})
	for _, handle := range []*Journal{j, other} {
		got, err := handle.AppendOnce("tap-1", func([]Entry) (any, error) {
			t.Error("decide is asked about an event that is logged already")
			return sample{N: 3}, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(first, got); d != "" {
			t.Error(d)
		}
	}
	if next, err := other.AppendOnce("tap-2", always(sample{N: 4})); err != nil || next.Seq != 3 {
		t.Errorf("the next key gives entry %d (%v), want 3", next.Seq, err)
	}
}

// TestDecideSeesAll: decide is shown what another handle has logged since.
func TestDecideSeesAll(t *testing.T) {
	folder, j := emptyJournal(t)
	other, _ := reopen(t, folder)
	for i := range 10 {
		handle := []*Journal{j, other}[i%2]
		_, err := handle.Append(func(entries []Entry) (any, error) {
			if len(entries) != i {
				t.Errorf("decide sees %d entries, want %d", len(entries), i)
			}
			return sample{N: len(entries)}, nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestCreateAndOpenErrors: a journal is not made twice, and not found where there is none.
func TestCreateAndOpenErrors(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	before := contents(t, folder)
	if _, err := Create(folder); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a second Create: %v, want fs.ErrExist", err)
	}
	if !bytes.Equal(contents(t, folder), before) {
		t.Error("a second Create changed the journal")
	}
	missing := filepath.Join(folder, "missing")
	if _, err := Create(missing); !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), missing) {
		t.Errorf("Create in a missing folder: %v", err)
	}
	empty := t.TempDir()
	for _, folder := range []string{missing, empty} {
		if _, _, err := Open(folder); !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), folder) {
			t.Errorf("Open of %s: %v", folder, err)
		}
	}
	if left, err := os.ReadDir(empty); err != nil || len(left) > 0 {
		t.Errorf("Open left %v in a folder without a journal (%v)", left, err)
	}
	if err := os.Mkdir(filepath.Join(empty, Name), 0o777); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Open(empty); err == nil {
		t.Error("a folder is opened as a journal")
	}
}

// TestReplacedFile: nothing is written to a file that is no longer the one in the folder,
// and a file that lost lines is not gone on with.
func TestReplacedFile(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	mustAppend(t, j, sample{N: 2})
	path := filepath.Join(folder, Name)
	text := contents(t, folder)
	if err := os.Remove(path); err != nil {
		t.Skip("an open file cannot be removed on this system:", err)
	}
	if _, err := j.Append(always(sample{N: 3})); !errors.Is(err, errReplaced) {
		t.Errorf("removed: %v", err)
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := j.Append(always(sample{N: 3})); !errors.Is(err, errReplaced) {
		t.Errorf("replaced: %v", err)
	}
	again, _ := reopen(t, folder)
	if err := os.Truncate(path, int64(bytes.IndexByte(text, '\n')+1)); err != nil {
		t.Fatal(err)
	}
	var damaged *Damaged
	if _, err := again.Append(always(sample{N: 3})); !errors.As(err, &damaged) {
		t.Errorf("a file that lost a line: %v", err)
	}
}

// TestBusy: a lock that another holds is waited for, not for ever.
func TestBusy(t *testing.T) {
	folder, j := emptyJournal(t)
	release, err := takeLock(lockPath(filepath.Join(folder, Name)), patience)
	if err != nil {
		t.Fatal(err)
	}
	j.patience = 20 * time.Millisecond
	var failed *Failed
	if _, err := j.Append(always(sample{N: 1})); !errors.As(err, &failed) || !errors.Is(err, errBusy) {
		t.Errorf("a held lock: %v", err)
	}
	release()
	j.patience = patience
	if entry := mustAppend(t, j, sample{N: 1}); entry.Seq != 1 {
		t.Errorf("after the lock came free: entry %d", entry.Seq)
	}
}
