package session

import (
	"errors"
	"fmt"
	"io"
	"slices"
)

// Append logs one entry and returns it when it is on the disk.
//
// Under the lock it reads what others have logged meanwhile and calls decide with all
// entries, so that what decide finds in them holds at the moment of writing. decide
// returns the payload, any value that marshals to a JSON object without the fields "seq",
// "after" and "key", or an error, which Append returns and which leaves the file untouched. decide
// must not change the entries nor use the journal.
//
// The error is a *Damaged if others' lines are, and a *Failed if the disk or the lock
// refuses: the entry is then not logged, unless Failed says that it is unsure. After a
// failed sync nobody knows what is on the disk; the journal then refuses every further
// Append and must be opened again.
func (j *Journal) Append(decide func(entries []Entry) (payload any, err error)) (Entry, error) {
	return j.exclusively(func() (Entry, error) { return j.add("", decide) })
}

// AppendOnce is Append for an event that may arrive twice: if an entry with this key is
// there, it is returned and decide is not called. The key must not be empty.
func (j *Journal) AppendOnce(key string, decide func(entries []Entry) (payload any, err error)) (Entry, error) {
	if key == "" {
		return Entry{}, errors.New("an event that is to be logged once needs a key")
	}
	return j.exclusively(func() (Entry, error) {
		if entry, found := j.keyed(key); found {
			return entry, j.confirm()
		}
		return j.add(key, decide)
	})
}

// keyed finds the entry with a key.
func (j *Journal) keyed(key string) (Entry, bool) {
	for _, entry := range j.entries {
		if entry.Key == key {
			return entry, true
		}
	}
	return Entry{}, false
}

// exclusively calls do under the lock with all entries read.
func (j *Journal) exclusively(do func() (Entry, error)) (Entry, error) {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	if j.dead != nil {
		return Entry{}, &Failed{Doing: "write", Path: j.path, Err: fmt.Errorf("%w (%w)", errDead, j.dead)}
	}
	if j.report.ReadOnly != nil {
		return Entry{}, j.report.ReadOnly
	}
	release, err := takeLock(lockPath(j.path), j.patience)
	if err != nil {
		return Entry{}, err
	}
	defer release()
	if err := j.catchUp(); err != nil {
		return Entry{}, err
	}
	return do()
}

// Try is Append without the writing: its error is what would refuse the entry before the disk
// is asked to take it.
func (j *Journal) Try(decide func(entries []Entry) (payload any, err error)) error {
	_, err := j.exclusively(func() (Entry, error) {
		_, entry, err := j.next("", decide)
		return entry, err
	})
	return err
}

// next is the line and the entry that would be added.
func (j *Journal) next(key string, decide func([]Entry) (any, error)) ([]byte, Entry, error) {
	payload, err := decide(slices.Clone(j.entries))
	if err != nil {
		return nil, Entry{}, err
	}
	return encode(j.entries, key, payload)
}

func (j *Journal) add(key string, decide func([]Entry) (any, error)) (Entry, error) {
	line, entry, err := j.next(key, decide)
	if err != nil {
		return Entry{}, err
	}
	if err := j.cut(); err != nil {
		return Entry{}, err
	}
	if j.unended {
		line = append([]byte("\n"), line...)
	}
	if err := j.write(line); err != nil {
		return Entry{}, err
	}
	j.entries = append(j.entries, entry)
	j.length += int64(len(line))
	j.unended = false
	j.keepCount()
	return entry, nil
}

// write brings a line onto the disk or leaves the file as it was.
func (j *Journal) write(line []byte) error {
	n, err := j.file.Write(line)
	if err == nil && n < len(line) {
		err = io.ErrShortWrite
	}
	if err != nil {
		// Part of a line counts for nothing even if it cannot be taken away.
		whole := n == len(line)
		return j.takeBack("write", err, whole)
	}
	if err := j.file.Sync(); err != nil {
		j.dead = err
		return j.takeBack("sync", err, true)
	}
	return nil
}

// takeBack removes what a failed append has left; whole tells whether that reads as a line.
func (j *Journal) takeBack(doing string, cause error, whole bool) error {
	failed := &Failed{Doing: doing, Path: j.path, Err: cause}
	if err := j.shorten(); err != nil {
		j.dead = errors.Join(cause, err)
		failed.Unsure = whole
	}
	return failed
}

// confirm makes sure that an entry which is about to be acknowledged again is on the disk, and
// counted: whoever wrote it may have been killed before.
func (j *Journal) confirm() error {
	if err := j.file.Sync(); err != nil {
		j.dead = err
		return &Failed{Doing: "sync", Path: j.path, Err: err, Unsure: true}
	}
	j.keepCount()
	return nil
}
