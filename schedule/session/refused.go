package session

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// RefusedName is the file that keeps the keys of events that were refused: one that arrives again
// is not to be logged after all, since whoever meant it was told that it is not, and may have
// logged it in other words. It belongs to no journal and is in no copy.
const RefusedName = "refused.jsonl"

// A Refused is a key under which nothing is logged any more.
type Refused struct {
	Key   string    `json:"key"`
	Text  string    `json:"text"` // what was said
	At    time.Time `json:"at"`
	Asked bool      `json:"asked,omitempty"` // it had not arrived when somebody asked what became of it
}

// Error says it again.
func (r *Refused) Error() string { return r.Text }

// GivenUp is said of an event that arrives after somebody was told that it is not logged.
const givenUp = "it came after this page was told that nothing was logged\n   if it did happen, and is not logged meanwhile, tap again"

// Bounds of the file: beyond, the older half goes. What is refused arrives again within minutes
// or never.
const (
	mostRefused     = 1 << 20 // bytes
	longestRefused  = 1000    // of a text
	keptWhenTooLong = mostRefused / 2
)

// refusals are those of a folder. They are read and written under the lock of its journal.
type refusals struct {
	size int64 // of the file as it was read
	kept map[string]*Refused
}

// of finds the refusal of a key. What cannot be read of the file is passed over: it must keep
// nobody from logging.
func (r *refusals) of(folder, key string) *Refused {
	path := filepath.Join(folder, RefusedName)
	info, err := os.Stat(path)
	if err != nil {
		return r.kept[key]
	}
	if info.Size() != r.size {
		text, err := readWhole(path)
		if err != nil {
			return r.kept[key]
		}
		r.size = info.Size()
		for line := range bytes.Lines(text) {
			one := new(Refused)
			if json.Unmarshal(line, one) == nil && one.Key != "" {
				r.add(one)
			}
		}
	}
	return r.kept[key]
}

func (r *refusals) add(one *Refused) {
	if r.kept == nil {
		r.kept = map[string]*Refused{}
	}
	if r.kept[one.Key] == nil {
		r.kept[one.Key] = one
	}
}

// keep writes a refusal, which counts in this process though the disk refuses it.
func (r *refusals) keep(folder string, one *Refused) error {
	if r.of(folder, one.Key) != nil {
		return nil
	}
	if len(one.Text) > longestRefused {
		one.Text = one.Text[:longestRefused]
	}
	r.add(one)
	line, err := marshalPlain(one)
	if err != nil {
		return err
	}
	path := filepath.Join(folder, RefusedName)
	if err := shortenRefused(folder, path); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o666)
	if err != nil {
		return err
	}
	// Before the line, too: a line that was cut short is not to take this one with it.
	_, err = f.Write(append(append([]byte("\n"), line...), '\n'))
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// shortenRefused leaves the newer half of a file that has grown too long.
func shortenRefused(folder, path string) error {
	text, err := readWhole(path)
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(text) <= mostRefused {
		return nil
	}
	if err != nil {
		return err
	}
	text = text[len(text)-keptWhenTooLong:]
	return replace(folder, RefusedName, text[bytes.IndexByte(text, '\n')+1:])
}

// refuses keeps the refusal of a key where an error is one of what was told.
func (s *Session) refuses(key string, e Event, err error) error {
	var refusal *Refusal
	if errors.As(err, &refusal) {
		_ = s.refused.keep(s.Folder, &Refused{Key: key, Text: err.Error(), At: e.Logged}) // it is refused all the same
	}
	return err
}

// Refuse keeps that the event of a key was refused, for a reason outside of the journal; one that
// is logged stays so. The error is that of the disk or the lock: the key is then refused as long
// as this session is open.
func (s *Session) Refuse(key, text string, at time.Time) error {
	_, err := s.Journal.exclusively(func() (Entry, error) {
		if _, found := s.Journal.keyed(key); found {
			return Entry{}, nil
		}
		return Entry{}, s.refused.keep(s.Folder, &Refused{Key: key, Text: text, At: at})
	})
	return err
}

// Became tells what became of the event of a key: the event where it is logged, else its refusal.
// One that is not known is refused from now on: who asks goes by the answer. The error is that of
// the disk or the lock, and nothing is known then.
func (s *Session) Became(key string, at time.Time) (Event, *Refused, error) {
	var refused *Refused
	entry, err := s.Journal.exclusively(func() (Entry, error) {
		if entry, found := s.Journal.keyed(key); found {
			return entry, s.Journal.confirm()
		}
		if refused = s.refused.of(s.Folder, key); refused != nil {
			return Entry{}, nil
		}
		refused = &Refused{Key: key, Text: givenUp, At: at, Asked: true}
		if err := s.refused.keep(s.Folder, refused); err != nil {
			return Entry{}, &Failed{Doing: "write", Path: filepath.Join(s.Folder, RefusedName), Err: err}
		}
		return Entry{}, nil
	})
	if err != nil || refused != nil {
		return Event{}, refused, err
	}
	all, err := s.events(s.Journal.Entries())
	if err != nil {
		return Event{}, nil, err
	}
	return all[entry.Seq-1], nil, nil
}

// Unseen refuses an event that may mean something else to who logs it, since that one had seen
// only the first events of the journal: a pot beside which another one was logged meanwhile, and
// whatever does not name its subject where the like was.
func Unseen(seen int, e Event, all []Event) error {
	named := e.Pot > 0 || e.Bath || e.Layer > 0 || e.Of > 0
	for _, other := range all[min(max(seen, 0), len(all)):] {
		switch {
		case e.Kind == Mixed && other.Kind == Mixed:
			return refuse("if this is another one, log it again", "meanwhile pot %d of %s g was logged at %s", other.PotNumber, tenth(grams(other)), other.At.Format(clockOnly))
		case named || e.Kind == Mixed:
		case e.Kind == Undo && other.Own(), e.Kind == other.Kind && (e.Kind == Begin || e.Kind == Done || e.Kind == Poured), e.Kind.Removes() && (other.Kind.Removes() || other.Kind == Poured):
			return refuse("look what was logged: potlife log; then log it again, with its number", "meanwhile e%d was logged: %s", other.Seq, other.called())
		}
	}
	return nil
}

func tenth(x float64) string {
	text := fmt.Sprintf("%.1f", x)
	if n := len(text); text[n-2:] == ".0" {
		return text[:n-2]
	}
	return text
}
