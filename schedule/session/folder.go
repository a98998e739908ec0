package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// The copies that a session keeps beside its journal, so that it replays the same
// years later.
const (
	JobCopy   = "job.yaml"
	ResinCopy = "resin.yaml"
)

// ending is what the folder of a session is called after; the second of a job has
// a number.
const ending = ".session"

var called = regexp.MustCompile(`\.session(-[0-9]+)?$`)

// A Session is the folder of one day at the machine, open for logging.
type Session struct {
	Folder  string
	Journal *Journal
	Report  Report
}

// Start makes the folder of a session beside the job and logs its start. A folder
// of the same job that is not finished refuses a second one; after finished ones
// the next number is taken.
func Start(jobPath string, job, resin []byte, name string, layers int, at, now time.Time) (*Session, Event, error) {
	if err := future(Event{At: at, Logged: now}); err != nil {
		return nil, Event{}, err
	}
	stem := strings.TrimSuffix(jobPath, filepath.Ext(jobPath)) + ending
	for n := 1; ; n++ {
		folder := stem
		if n > 1 {
			folder += "-" + strconv.Itoa(n)
		}
		if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
			return establish(folder, job, resin, Event{At: at, Logged: now, Kind: Started, Job: name, Layers: layers})
		}
		earlier, err := OpenFolder(folder)
		if err != nil {
			return nil, Event{}, err
		}
		finished, err := earlier.Finished()
		cut := earlier.Report.Told()
		_ = earlier.Close() // only read
		if err != nil {
			return nil, Event{}, err
		}
		if !finished {
			r := refuse("log finish in it first, or use it with --session "+folder, "%s is open already", folder)
			if cut != "" {
				r.Problem += "; " + cut
			}
			return nil, Event{}, r
		}
	}
}

// Finished tells whether the session is.
func (s *Session) Finished() (bool, error) {
	day, err := s.Day()
	return day.Finished, err
}

// Day is where the winding stands after all that was logged.
func (s *Session) Day() (Day, error) {
	all, err := s.Events()
	if err != nil {
		return Day{}, err
	}
	return Through(all)
}

// Told is what a crew must hear of a journal whose last line was cut short, empty
// where nothing was.
func (r Report) Told() string {
	if r.Cut == 0 {
		return ""
	}
	return fmt.Sprintf("the last line of the journal was cut short while it was written, %d bytes of what would have been event %d; it was never acknowledged and is removed", r.Cut, r.Line)
}

// establish fills a temporary folder and renames it, so that a start that is killed
// leaves no half of a session.
func establish(folder string, job, resin []byte, first Event) (*Session, Event, error) {
	draft, err := os.MkdirTemp(filepath.Dir(folder), ".starting-*")
	if err != nil {
		return nil, Event{}, fmt.Errorf("no session can be kept beside the job: %w", err)
	}
	defer os.RemoveAll(draft)
	for name, content := range map[string][]byte{JobCopy: job, ResinCopy: resin} {
		if err := writeSynced(filepath.Join(draft, name), content); err != nil {
			return nil, Event{}, err
		}
	}
	j, err := Create(draft)
	if err != nil {
		return nil, Event{}, err
	}
	if _, err := j.Append(func([]Entry) (any, error) { return first, nil }); err != nil {
		_ = j.Close()
		return nil, Event{}, err
	}
	if err := j.Close(); err != nil {
		return nil, Event{}, err
	}
	if err := os.Chmod(draft, 0o755); err != nil {
		return nil, Event{}, err
	}
	if err := os.Rename(draft, folder); err != nil {
		if _, there := os.Stat(folder); there == nil {
			return nil, Event{}, refuse("use it with --session "+folder, "somebody else has just opened %s", folder)
		}
		return nil, Event{}, err
	}
	if err := syncFolder(filepath.Dir(folder)); err != nil {
		return nil, Event{}, err
	}
	s, err := OpenFolder(folder)
	if err != nil {
		return nil, Event{}, err
	}
	first.Seq = 1
	return s, first, nil
}

func writeSynced(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// OpenFolder opens the session in a folder.
func OpenFolder(folder string) (*Session, error) {
	j, report, err := Open(folder)
	if err != nil {
		return nil, err
	}
	return &Session{Folder: folder, Journal: j, Report: report}, nil
}

// Close closes the journal; all that was acknowledged is on the disk already.
func (s *Session) Close() error { return s.Journal.Close() }

// Events returns all events of the journal, those taken back included.
func (s *Session) Events() ([]Event, error) { return events(s.Journal.Entries()) }

// Log checks an event against the day, fills in what it leaves open and returns
// it when it is on the disk. The error is a [*Refusal] for one that cannot have
// happened, and the journal's own otherwise.
func (s *Session) Log(e Event) (Event, error) {
	logged := e
	entry, err := s.Journal.Append(func(entries []Entry) (any, error) {
		all, err := events(entries)
		if err != nil {
			return nil, err
		}
		logged, err = complete(all, e)
		return logged, err
	})
	logged.Seq = entry.Seq
	return logged, err
}

// A Found session is one in a folder that is not finished, open, or the reason why
// it cannot be opened.
type Found struct {
	Folder  string
	Session *Session
	Err     error
}

// FindOpen opens the sessions in a folder that are not finished, by name. One that
// cannot be opened is among them: whoever meant it must hear of it. The caller
// closes those that are open.
func FindOpen(folder string) ([]Found, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	var found []Found
	for _, entry := range entries {
		path := filepath.Join(folder, entry.Name())
		if !entry.IsDir() || !called.MatchString(entry.Name()) {
			continue
		}
		if _, err := os.Stat(filepath.Join(path, Name)); err != nil {
			continue // called like one, and none
		}
		s, err := OpenFolder(path)
		if err != nil {
			found = append(found, Found{Folder: path, Err: err})
			continue
		}
		if finished, err := s.Finished(); err == nil && finished {
			_ = s.Close() // only read
			continue
		}
		found = append(found, Found{Folder: path, Session: s})
	}
	return found, nil
}
