package session

import (
	"context"
	"errors"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// lockName is a file of its own: a lock on a file that someone renames guards nothing.
const lockName = "journal.lock"

// Times of waiting for the lock. An append takes milliseconds, so that a process which
// holds the lock for patience hangs; between looks a short pause.
const (
	patience  = 10 * time.Second
	lookAgain = 2 * time.Millisecond
)

func lockPath(journal string) string { return filepath.Join(filepath.Dir(journal), lockName) }

// takeLock keeps other processes, and other journals of this process, off the folder until
// release is called.
func takeLock(path string, patience time.Duration) (release func(), err error) {
	// Others may only read the file, which is enough to lock it.
	lock := flock.New(path, flock.SetPermissions(0o644))
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if _, err := lock.TryLockContext(ctx, lookAgain); err != nil {
		if errors.Is(err, context.DeadlineExceeded) {
			err = errBusy
		}
		return nil, &Failed{Doing: "lock", Path: path, Err: err}
	}
	// A lock that does not come off is no reason to doubt what was done under it: the system
	// takes it off when the process ends.
	return func() { _ = lock.Unlock() }, nil
}
