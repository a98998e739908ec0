package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

// Name is the journal's file in the folder of a session.
const Name = "journal.jsonl"

// Journal is an open journal. Its methods may be called from several goroutines, and
// several processes may have the same folder open.
type Journal struct {
	path     string
	patience time.Duration // for the lock

	mutex   sync.Mutex // guards what follows
	file    file
	entries []Entry
	length  int64  // bytes that the entries take
	unended bool   // the last of them has no newline
	tail    []byte // what lies behind them
	report  Report
	dead    error // why nothing more may be written

	// Syncs of what lies beside the file; tests do without.
	sync       func(*os.File) error
	syncFolder func(string) error
}

// Report is what was noticed while reading a journal.
type Report struct {
	// Cut counts the bytes of a last line that was cut short while it was written; Line is
	// the number it would have had and Tail its text. It counts for nothing. Where the number
	// of acknowledged lines is kept it was none of them, since that would be damage. The next
	// Append cuts it off, and it is then in the file Kept beside the journal.
	Cut  int
	Line int
	Tail string
	Kept string

	// Uncounted means that the number of acknowledged lines is not known or could not be
	// written: lines that are cut off the end would not be noticed. The next Append writes it.
	Uncounted bool

	// ReadOnly is why Append will refuse; nil if it will not. Where even the lock is out of
	// reach, an event that is being logged just then may be missing.
	ReadOnly error
}

func newJournal(path string, f file) *Journal {
	return &Journal{path: path, patience: patience, file: f, sync: (*os.File).Sync, syncFolder: syncFolder}
}

// Open reads and checks the journal of a folder, and changes nothing there.
//
// The error is a *Damaged, and the file untouched, if a line is not as it was logged. It
// is a *Failed if the disk or the lock refuses. It wraps fs.ErrNotExist if there is no
// journal. A journal that can be read but not written opens, and the Report says so.
func Open(folder string) (*Journal, Report, error) {
	path := filepath.Join(folder, Name)
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
		return nil, Report{}, noSession{fmt.Sprintf("%s is not the folder of a session: it has no %s", folder, Name)}
	case err == nil && !info.Mode().IsRegular():
		return nil, Report{}, fmt.Errorf("%s is not a file: name the folder of a session", path)
	}
	f, readOnly, err := openJournal(path)
	if err != nil {
		return nil, Report{}, err
	}
	return readJournal(path, f, readOnly)
}

// readJournal makes a journal of an open file.
func readJournal(path string, f file, readOnly error) (*Journal, Report, error) {
	j := newJournal(path, f)
	j.report.ReadOnly = readOnly
	release, err := takeLock(lockPath(path), j.patience)
	if err == nil {
		defer release()
	} else if !errors.Is(err, errBusy) {
		j.report.ReadOnly = err // what cannot be locked can still be looked at
		err = nil
	}
	if err == nil {
		err = j.catchUp()
	}
	if err != nil {
		_ = f.Close() // the error that counts is known
		return nil, Report{}, err
	}
	return j, j.report, nil
}

// Entries returns the entries as of the last Open or Append.
func (j *Journal) Entries() []Entry {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	return slices.Clone(j.entries)
}

// Report returns what was noticed so far: an Append too may find, and cuts off, what
// another process that was killed has left behind.
func (j *Journal) Report() Report {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	return j.report
}

// Close closes the file. All that was acknowledged is on the disk already.
func (j *Journal) Close() error {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	return j.file.Close()
}
