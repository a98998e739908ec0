package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"potlife/kinetics/warning"
)

// The copies that a session keeps beside its journal, so that it replays the same
// years later.
const (
	JobCopy   = "job.yaml"
	ResinCopy = "resin.yaml"
	// LearnedCopy is there only where the job had learned something.
	LearnedCopy = "learned.yaml"
)

// A Session is the folder of one day at the machine, open for logging.
type Session struct {
	Folder  string
	Journal *Journal
	Report  Report // of the last time that it was opened or logged into

	refused refusals // guarded by the journal's lock

	reading sync.Mutex // guards what follows
	read    []Event    // of the first entries: they never change
}

// Finished tells whether the session is.
func (s *Session) Finished() (bool, error) {
	day, err := s.Day()
	return day.Finished, err
}

// Day is where the winding stands after all that was logged. The error is the journal's own: what
// was logged has been asked for its order before, so that one which cannot be is damage.
func (s *Session) Day() (Day, error) {
	all, err := s.Events()
	if err != nil {
		return Day{}, err
	}
	return s.DayOf(all)
}

// DayOf is Day for events of the journal that were read before.
func (s *Session) DayOf(all []Event) (Day, error) {
	day, err := played(all)
	return day, inJournal(s.Journal.path, err)
}

// Warnings are what a crew must know of a journal as it was read.
func (r Report) Warnings() []warning.Warning {
	var list []warning.Warning
	if r.Cut > 0 {
		list = append(list, LineCut{Bytes: r.Cut, Event: r.Line, Kept: r.Kept})
	}
	if r.Uncounted {
		list = append(list, NotCounted{})
	}
	return list
}

// OpenFolder opens the session in a folder. The error is a [*Refusal] where a file
// is named for one, wraps fs.ErrNotExist where there is no journal, and is the
// journal's own otherwise.
func OpenFolder(folder string) (*Session, error) {
	switch info, err := os.Stat(folder); {
	case err == nil && !info.IsDir():
		return nil, refuse("name the folder of a session", "%s is a file", folder)
	case err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrPermission):
		// A file on the way to it, a name that is too long or that no system takes.
		return nil, refuse("name the folder of a session", "%q cannot be a folder: %v", folder, errors.Unwrap(err))
	}
	if info, err := os.Stat(filepath.Join(folder, Name)); err == nil && !info.Mode().IsRegular() {
		return nil, noSession{fmt.Sprintf("%s is not the folder of a session: its %s is no file", folder, Name)}
	}
	j, report, err := Open(folder)
	if err != nil {
		return nil, err
	}
	if damage := noStart(j.entries); damage != nil {
		_ = j.Close() // the error that counts is known
		damage.Path = j.path
		return nil, damage
	}
	return &Session{Folder: folder, Journal: j, Report: report}, nil
}

// Close closes the journal; all that was acknowledged is on the disk already.
func (s *Session) Close() error { return s.Journal.Close() }

// Events returns all events of the journal, those taken back included.
func (s *Session) Events() ([]Event, error) {
	all, err := s.events(s.Journal.Entries())
	return slices.Clone(all), err
}

// events decodes entries of the journal, each once.
func (s *Session) events(entries []Entry) ([]Event, error) {
	s.reading.Lock()
	defer s.reading.Unlock()
	known := min(len(s.read), len(entries))
	if known < len(entries) {
		read, err := eventsBehind(s.read, entries[known:])
		if err != nil {
			return nil, inJournal(s.Journal.path, err)
		}
		s.read = read
		NumberPots(s.read, known)
	}
	return s.read[:len(entries):len(entries)], nil
}

// Log checks an event against the day, fills in what it leaves open and returns
// it when it is on the disk. The error is a [*Refusal] for one that cannot have
// happened, and the journal's own otherwise.
func (s *Session) Log(e Event) (Event, error) { return s.log(e, s.Journal.Append) }

// LogSeen is Log for an event that was worked out from the first entries of the journal, seen
// of them: what others have logged since must not change its meaning, see [Unseen].
func (s *Session) LogSeen(seen int, e Event) (Event, error) {
	return s.log(e, func(decide func([]Entry) (any, error)) (Entry, error) {
		return s.Journal.Append(func(entries []Entry) (any, error) {
			all, err := s.events(entries)
			if err == nil {
				err = Unseen(seen, e, all)
			}
			if err != nil {
				return nil, err
			}
			return decide(entries)
		})
	})
}

// LogOnce is Log for an event that may arrive twice, such as a tap on a screen: the
// first with a key is logged, and every later one returns what that was. The key must
// not be empty. check may refuse it for what is logged by then, under the lock; nil: it
// need not. What is refused stays refused under its key, with the same words as a
// [*Refused], also after a restart.
func (s *Session) LogOnce(key string, e Event, check func(all []Event) error) (Event, error) {
	return s.log(e, func(decide func([]Entry) (any, error)) (Entry, error) {
		return s.Journal.AppendOnce(key, func(entries []Entry) (any, error) {
			if refused := s.refused.of(s.Folder, key); refused != nil {
				return nil, refused
			}
			all, err := s.events(entries)
			if err == nil && check != nil {
				err = check(all)
			}
			if err != nil {
				return nil, s.refuses(key, e, err)
			}
			payload, err := decide(entries)
			return payload, s.refuses(key, e, err)
		})
	})
}

// ErrOvertaken is that others have logged since an event was worked out.
var ErrOvertaken = errors.New("others have logged meanwhile")

// LogAfter is Log for an event that was worked out from the first entries of the journal, seen
// of them. Where others have logged since, it logs nothing and returns ErrOvertaken.
func (s *Session) LogAfter(seen int, e Event) (Event, error) {
	return s.log(e, func(decide func([]Entry) (any, error)) (Entry, error) {
		return s.Journal.Append(unlessOvertaken(seen, decide))
	})
}

// TryAfter is LogAfter without the writing: its error is what would refuse the event now. Only
// a disk that fails and others who log in between can refuse it still.
func (s *Session) TryAfter(seen int, e Event) error {
	if err := s.reopens(e); err != nil {
		return err
	}
	return s.Journal.Try(unlessOvertaken(seen, func(entries []Entry) (any, error) { return s.decided(entries, e) }))
}

func unlessOvertaken(seen int, decide func([]Entry) (any, error)) func([]Entry) (any, error) {
	return func(entries []Entry) (any, error) {
		if len(entries) != seen {
			return nil, ErrOvertaken
		}
		return decide(entries)
	}
}

// decided is an event as it is logged after the entries given.
func (s *Session) decided(entries []Entry, e Event) (Event, error) {
	all, err := s.events(entries)
	if err != nil {
		return e, err
	}
	if e, err = complete(all, e); err != nil {
		return e, err
	}
	// Nothing may be logged that would be damage to whoever reads it.
	if problem := e.absurd(all); problem != "" {
		return e, refuse("look at it again, and log what happened", "%s at %s cannot be logged: %s", e.Kind, e.At.Format(clockOnly), problem)
	}
	return e, nil
}

// reported takes over what was noticed while an event was written: where a line that was cut short
// is kept now, or that the count could not be written.
func (s *Session) reported() {
	s.reading.Lock()
	defer s.reading.Unlock()
	s.Report = s.Journal.Report()
}

// log writes an event the way that append does.
func (s *Session) log(e Event, write func(decide func([]Entry) (any, error)) (Entry, error)) (Event, error) {
	if err := s.reopens(e); err != nil {
		return e, err
	}
	logged := e
	entry, err := write(func(entries []Entry) (any, error) {
		var err error
		logged, err = s.decided(entries, e)
		return logged, err
	})
	if err != nil {
		return logged, err
	}
	s.reported()
	all, err := s.events(s.Journal.Entries())
	if err != nil {
		return logged, err
	}
	return all[entry.Seq-1], nil
}
