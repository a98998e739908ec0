package session

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// faulty is a disk that fails as told, each fault once.
type faulty struct {
	file
	room     int // bytes that a failing write still takes
	write    error
	sync     []error // of the next syncs, nil for one that works
	truncate error
}

func (f *faulty) Write(line []byte) (int, error) {
	if f.write == nil {
		return f.file.Write(line)
	}
	err := f.write
	f.write = nil
	n, own := f.file.Write(line[:min(f.room, len(line))])
	return n, errors.Join(err, own)
}

func (f *faulty) Sync() error {
	if len(f.sync) == 0 {
		return f.file.Sync()
	}
	err := f.sync[0]
	f.sync = f.sync[1:]
	return err
}

func (f *faulty) Truncate(size int64) error {
	if err := f.truncate; err != nil {
		f.truncate = nil
		return err
	}
	return f.file.Truncate(size)
}

// short is a disk that takes part of a line and reports no error, against io.Writer's rule.
type short struct{ file }

func (s *short) Write(line []byte) (int, error) { return s.file.Write(line[:len(line)/2]) }

// TestFailingDisk lets the disk fail in an append in each way: what was acknowledged stays
// whole, the message says what to do, and only a journal whose disk is known goes on.
func TestFailingDisk(t *testing.T) {
	const eio = syscall.EIO
	for name, try := range map[string]struct {
		disk   faulty
		says   string
		unsure bool
		dead   bool
		left   string // of the failed line in the file: none, part, all
	}{
		"full before the line":  {disk: faulty{write: syscall.ENOSPC}, says: "free some space", left: "none"},
		"full in the line":      {disk: faulty{write: syscall.ENOSPC, room: 9}, says: "free some space", left: "none"},
		"quota in the line":     {disk: faulty{write: syscall.EDQUOT, room: 9}, says: "free some space", left: "none"},
		"read-only by now":      {disk: faulty{write: syscall.EROFS}, says: "writable", left: "none"},
		"error in the line":     {disk: faulty{write: eio, room: 9}, says: "another disk", left: "none"},
		"full, not taken back":  {disk: faulty{write: syscall.ENOSPC, room: 9, truncate: eio}, dead: true, left: "part"},
		"full, not synced back": {disk: faulty{write: syscall.ENOSPC, room: 9, sync: []error{eio}}, dead: true, left: "none"},
		"error behind the line": {disk: faulty{write: eio, room: LongestLine, truncate: eio}, unsure: true, dead: true, left: "all"},
		"sync":                  {disk: faulty{sync: []error{eio}}, dead: true, left: "none"},
		"sync, twice":           {disk: faulty{sync: []error{eio, eio}}, unsure: true, dead: true, left: "none"},
		"sync, not taken back":  {disk: faulty{sync: []error{eio}, truncate: eio}, says: "look before", unsure: true, dead: true, left: "all"},
		"sync on a full disk":   {disk: faulty{sync: []error{syscall.ENOSPC}}, says: "free some space", dead: true, left: "none"},
	} {
		t.Run(name, func(t *testing.T) {
			folder, j := emptyJournal(t)
			mustAppend(t, j, sample{N: 1, Text: "acknowledged"})
			before, acknowledged := contents(t, folder), j.Entries()
			disk := try.disk
			disk.file, j.file = j.file, &disk

			_, err := j.Append(always(sample{N: 2}))
			var failed *Failed
			if !errors.As(err, &failed) || failed.Unsure != try.unsure || !strings.Contains(err.Error(), try.says) ||
				!strings.Contains(err.Error(), "what was logged before is whole") {
				t.Fatalf("%v; want unsure %v and %q", err, try.unsure, try.says)
			}
			sameEntries(t, acknowledged, j.Entries())
			after := contents(t, folder)
			if !bytes.HasPrefix(after, before) {
				t.Error("what was acknowledged is changed")
			}
			rest := after[len(before):]
			left := "part"
			if len(rest) == 0 {
				left = "none"
			} else if bytes.HasSuffix(rest, []byte("\n")) {
				left = "all"
			}
			if left != try.left {
				t.Errorf("%q is left of the line, want %s", rest, try.left)
			}
			tryAgain(t, folder, j, try.dead, left)
		})
	}
}

// tryAgain logs once more after a failure, through the same journal if it is to be alive,
// else through one opened anew.
func tryAgain(t *testing.T, folder string, j *Journal, dead bool, left string) {
	t.Helper()
	want := 2
	if dead {
		if _, err := j.Append(always(sample{N: 3})); !errors.Is(err, errDead) {
			t.Errorf("the journal is not given up: %v", err)
		}
		var report Report
		j, report = reopen(t, folder)
		if (report.Cut > 0) != (left == "part") {
			t.Errorf("opened again it reports %+v", report)
		}
		if left == "all" {
			want = 3
		}
	}
	if entry := mustAppend(t, j, sample{N: 3}); entry.Seq != want {
		t.Errorf("the next entry is %d, want %d", entry.Seq, want)
	}
	again, _ := reopen(t, folder)
	sameEntries(t, j.Entries(), again.Entries())
}

// TestShortWrite: a write that takes less than the line is a failure, whatever it says.
func TestShortWrite(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	before, good := contents(t, folder), j.file
	j.file = &short{good}
	var failed *Failed
	if _, err := j.Append(always(sample{N: 2})); !errors.As(err, &failed) {
		t.Errorf("half a line: %v", err)
	}
	if !bytes.Equal(contents(t, folder), before) {
		t.Error("the file is not as it was")
	}
	j.file = good
	tryAgain(t, folder, j, false, "none")
}

// steps notes the order of what reaches the disk.
type steps struct {
	file
	taken []string
}

func (s *steps) Write(line []byte) (int, error) {
	s.taken = append(s.taken, "write "+string(line))
	return s.file.Write(line)
}

func (s *steps) Sync() error {
	s.taken = append(s.taken, "sync")
	return s.file.Sync()
}

// TestOneWriteThenSync: an append is one write of the whole line, synced before it is
// acknowledged; a key that is there already is synced before it is acknowledged again.
func TestOneWriteThenSync(t *testing.T) {
	folder, j := emptyJournal(t)
	disk := &steps{file: j.file}
	j.file = disk
	for range 2 {
		if _, err := j.AppendOnce("tap-1", always(sample{N: 1})); err != nil {
			t.Fatal(err)
		}
	}
	want := []string{"write " + string(contents(t, folder)), "sync", "sync"}
	if got := disk.taken; strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("steps %q, want %q", got, want)
	}
}

// TestOnceUnconfirmed: a key that is there, but cannot be synced, is not acknowledged.
func TestOnceUnconfirmed(t *testing.T) {
	_, j := emptyJournal(t)
	if _, err := j.AppendOnce("tap-1", always(sample{N: 1})); err != nil {
		t.Fatal(err)
	}
	j.file = &faulty{file: j.file, sync: []error{syscall.EIO}}
	var failed *Failed
	if _, err := j.AppendOnce("tap-1", always(sample{N: 1})); !errors.As(err, &failed) || !failed.Unsure {
		t.Errorf("acknowledged, or sure, without a sync: %v", err)
	}
}

// TestTornNotCut: a torn tail that cannot be cut off is no journal to write behind.
func TestTornNotCut(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	path := filepath.Join(folder, Name)
	torn := append(contents(t, folder), `{"seq":2`...)
	for name, disk := range map[string]*faulty{
		"cut":  {truncate: syscall.EIO},
		"sync": {sync: []error{syscall.EIO}},
	} {
		place(t, folder, torn)
		f, _, err := openJournal(path)
		if err != nil {
			t.Fatal(err)
		}
		disk.file = f
		torn, _, err := readJournal(path, disk, nil)
		if err != nil {
			t.Fatal(err)
		}
		var failed *Failed
		if _, err := torn.Append(always(sample{N: 2})); !errors.As(err, &failed) {
			t.Errorf("%s: %v", name, err)
		}
		_ = torn.Close()
		if kept, err := os.ReadFile(filepath.Join(folder, "journal.cut-1.jsonl")); err != nil || string(kept) != `{"seq":2` {
			t.Errorf("%s: kept %q, %v", name, kept, err)
		}
	}
}

// TestReadOnlyFile: a file that may only be read is read, with its torn tail left out, and
// not written to.
func TestReadOnlyFile(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	path := filepath.Join(folder, Name)
	acknowledged := j.Entries()
	text := append(contents(t, folder), `{"seq":2`...)
	place(t, folder, text)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	if f, err := os.OpenFile(path, os.O_WRONLY, 0); err == nil {
		_ = f.Close()
		t.Skip("this user may write to a read-only file (root?)")
	}
	readsOnly(t, folder, acknowledged, text)
}

// TestReadOnlyFolder: a folder where the lock's file cannot be made is read, not written.
func TestReadOnlyFolder(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	acknowledged, text := j.Entries(), contents(t, folder)
	if err := os.Remove(filepath.Join(folder, lockName)); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.Chmod(folder, 0o777) })
	if f, err := os.Create(filepath.Join(folder, "probe")); err == nil {
		_ = f.Close()
		t.Skip("this user may write to a read-only folder (root?)")
	}
	readsOnly(t, folder, acknowledged, text)
	empty := filepath.Join(folder, "..", "empty")
	if err := os.Mkdir(empty, 0o555); err != nil {
		t.Fatal(err)
	}
	var failed *Failed
	if _, err := Create(empty); !errors.As(err, &failed) || !strings.Contains(err.Error(), "writable") {
		t.Errorf("Create in a read-only folder: %v", err)
	}
}

// TestNoLock: where the lock cannot be had for another reason than being held, the journal
// is read, not written. A folder in the place of the lock's file stands for all of them.
func TestNoLock(t *testing.T) {
	folder, j := emptyJournal(t)
	mustAppend(t, j, sample{N: 1})
	acknowledged := j.Entries()
	text := append(contents(t, folder), `{"seq":2`...)
	place(t, folder, text)
	lock := filepath.Join(folder, lockName)
	if err := errors.Join(os.Remove(lock), os.Mkdir(lock, 0o777)); err != nil {
		t.Fatal(err)
	}
	readsOnly(t, folder, acknowledged, text)
}

// readsOnly checks that a journal of this text gives the entries and refuses more.
func readsOnly(t *testing.T, folder string, acknowledged []Entry, text []byte) {
	t.Helper()
	j, report := reopen(t, folder)
	if report.ReadOnly == nil {
		t.Fatal("the journal opens for writing")
	}
	good := bytes.LastIndexByte(text, '\n') + 1
	if report.Cut != len(text)-good || report.Tail != string(text[good:]) {
		t.Errorf("report %+v of a tail of %d bytes", report, len(text)-good)
	}
	sameEntries(t, acknowledged, j.Entries())
	var failed *Failed
	if _, err := j.Append(always(sample{N: 2})); !errors.As(err, &failed) || failed.Unsure {
		t.Errorf("Append: %v", err)
	}
	if !bytes.Equal(contents(t, folder), text) {
		t.Error("the file was changed")
	}
}
