package session

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"syscall"
)

// Damaged says that a line which may have been acknowledged is not as it was written.
type Damaged struct {
	Path    string
	Line    int // from 1
	Problem string
}

// Error says where the damage is and what to do.
func (d *Damaged) Error() string {
	folder := filepath.Dir(d.Path)
	return fmt.Sprintf("%s:%d: %s\n   nothing was changed: put back what is lost from a copy: potlife session restore COPY %s;\n"+
		"   without a copy potlife session restore %s lists what is lost, and goes on without it;\n"+
		"   else move the folder away, start a new session and log again what the lines above say, they are whole",
		d.Path, d.Line, d.Problem, folder, folder)
}

// noSession says that a folder is none of a session; it is fs.ErrNotExist, whose own words
// would add nothing.
type noSession struct{ problem string }

func (n noSession) Error() string {
	return n.problem + "\n   name the folder of another, or start one: potlife start JOB"
}

func (noSession) Unwrap() error { return fs.ErrNotExist }

// Failed says that the disk or the lock refused. What was acknowledged before is whole.
type Failed struct {
	Doing string // the step that failed: create, lock, read, write, sync, keep, cut or verify
	Path  string
	Err   error
	// Unsure means that the entry could not be taken back either: it may be in the journal
	// or not, and only reading it again will tell.
	Unsure bool
}

// Error says what failed, that the rest is whole, and what to do.
func (f *Failed) Error() string {
	fate := "what was logged before is whole"
	if f.Unsure {
		fate += "; this event may be there or not: look before logging it again"
	}
	return fmt.Sprintf("%s\n   %s; %s", f.Problem(), fate, mend(f.Err))
}

// Problem is what failed, without what that means for what was to be logged.
func (f *Failed) Problem() string {
	var inner *fs.PathError
	cause := f.Err
	if errors.As(cause, &inner) {
		cause = inner.Err // the path stands in the message already
	}
	return fmt.Sprintf("cannot %s %s: %v", f.Doing, f.Path, cause)
}

// Unwrap gives the cause.
func (f *Failed) Unwrap() error { return f.Err }

// Causes that are the journal's own.
var (
	errBusy     = errors.New("another process has held the lock all the while")
	errReplaced = errors.New("the file was removed or replaced since it was opened")
	errReadBack = errors.New("it does not read back as it was written")
	errDead     = errors.New("an earlier write failed, so that this journal must be opened again")
)

// mend is what a person can do about a cause.
func mend(cause error) string {
	switch {
	case fullDisk(cause):
		return "free some space on this disk"
	case refusesWrites(cause):
		return "make the folder and its files writable, or copy the session to a disk that is"
	case errors.Is(cause, errBusy):
		return "end the process that hangs"
	case errors.Is(cause, errReplaced), errors.Is(cause, errDead):
		return "run the command again"
	}
	return "copy the session to another disk and go on there"
}

func fullDisk(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT)
}

// refusesWrites tells whether a file or folder may be read but not written.
func refusesWrites(err error) bool {
	return errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS)
}
