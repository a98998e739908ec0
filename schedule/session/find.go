package session

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"time"
)

var called = regexp.MustCompile(`\.session(-[0-9]+)?$`)

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
	all, err := find(folder)
	return slices.DeleteFunc(all, func(f Found) bool {
		if f.Err != nil {
			return false
		}
		finished, err := f.Session.Finished()
		if err != nil || !finished {
			return false
		}
		_ = f.Session.Close() // only read
		return true
	}), err
}

// stillWarm is how long after its finish a session is found by itself that left resin: by then it
// has set and is cold.
const stillWarm = 48 * time.Hour

// FindLeft are the folders of the sessions in a folder that were finished so lately that their resin,
// of which nobody has said what became, may still warm itself.
func FindLeft(folder string, now time.Time) ([]string, error) {
	past, err := FindFinished(folder)
	if err != nil {
		return nil, err
	}
	var left []string
	for _, p := range past {
		if now.Sub(p.Finish.At) > stillWarm {
			continue
		}
		s, err := OpenFolder(p.Folder)
		if err != nil {
			continue // it is none that can be answered for
		}
		if day, err := s.Day(); err == nil && day.Resin() {
			left = append(left, p.Folder)
		}
		_ = s.Close() // only read
	}
	return left, nil
}

// A Past session is one that is finished.
type Past struct {
	Folder string
	Finish Event
}

// FindFinished returns the sessions in a folder that are finished, the last one
// first.
func FindFinished(folder string) ([]Past, error) {
	all, err := find(folder)
	if err != nil {
		return nil, err
	}
	var past []Past
	for _, f := range all {
		if f.Err != nil {
			continue
		}
		events, err := f.Session.Events()
		_ = f.Session.Close() // only read
		if err != nil {
			continue
		}
		active := Active(events)
		if i := slices.IndexFunc(active, func(e Event) bool { return e.Kind == Finish }); i >= 0 {
			past = append(past, Past{f.Folder, active[i]})
		}
	}
	slices.SortStableFunc(past, func(a, b Past) int { return b.Finish.At.Compare(a.Finish.At) })
	return past, nil
}

// find opens all sessions in a folder.
func find(folder string) ([]Found, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	var all []Found
	for _, entry := range entries {
		path := filepath.Join(folder, entry.Name())
		if !entry.IsDir() || !called.MatchString(entry.Name()) {
			continue
		}
		if info, err := os.Stat(filepath.Join(path, Name)); err != nil || !info.Mode().IsRegular() {
			continue // called like one, and none
		}
		s, err := OpenFolder(path)
		all = append(all, Found{Folder: path, Session: s, Err: err})
	}
	return all, nil
}

// reopens refuses to take back the finish of a session while another one of the
// same job is open, as [Start] refuses a second one.
func (s *Session) reopens(e Event) error {
	if e.Kind != Undo {
		return nil
	}
	all, err := s.Events()
	if err != nil {
		return err
	}
	e, err = complete(all, e)
	if err != nil || all[e.Of-1].Kind != Finish {
		return nil // Log tells what is wrong with it
	}
	if other := s.openSibling(); other != "" {
		return refuse("finish that one first: potlife log finish --session "+other, "the finish is not taken back while %s of the same job is open", other)
	}
	return nil
}

// openSibling is the folder of a session of the same job that is not finished,
// while this one is. One that cannot be read is left out: whether it is open is
// unknown.
func (s *Session) openSibling() string {
	here, err := filepath.Abs(s.Folder) // it may be called .
	if err != nil {
		return ""
	}
	found, err := FindOpen(filepath.Join(s.Folder, ".."))
	if err != nil {
		return ""
	}
	own, sibling := filepath.Base(here), ""
	for _, f := range found {
		if f.Err != nil {
			continue
		}
		_ = f.Session.Close() // only looked at
		if called.ReplaceAllString(filepath.Base(f.Folder), "") == called.ReplaceAllString(own, "") {
			sibling = f.Folder
		}
	}
	return sibling
}
