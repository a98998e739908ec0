package session

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"potlife/kinetics/warning"
)

// Format is the number that start writes for what the lines of a journal mean. Journals without
// a number are of format 1. A new kind or a new field needs no other number: a program that does
// not know a kind stops there, and one that passes over a field loses nothing that it had.
// Format 3 is a chain of lines with a count beside it: an older program would break both.
const Format = 3

// Newer says that a journal has what only a later program understands. To read it without that
// would be to read another day.
type Newer struct {
	Path    string
	Line    int // from 1
	Problem string
}

// Error says what is new and what to do.
func (n *Newer) Error() string {
	return fmt.Sprintf("%s:%d: written by a newer potlife: %s\n   nothing was changed: update this program, or use the machine that wrote it", n.Path, n.Line, n.Problem)
}

// inJournal adds the path to an error of decoding, which knows only the line.
func inJournal(path string, err error) error {
	var n *Newer
	if errors.As(err, &n) {
		n.Path = path
	}
	var d *Damaged
	if errors.As(err, &d) && d.Path == "" {
		d.Path = path
	}
	return err
}

// newer tells what of an entry this program does not understand; nil: nothing. The fields
// of a new kind may be of other types than those of today, so these two are read alone. An
// event of no kind is none of any version.
func newer(entry Entry) *Newer {
	var e struct {
		Kind   Kind `json:"kind"`
		Format int  `json:"format"`
	}
	if json.Unmarshal(entry.Payload, &e) != nil {
		return nil // no event at all, which is said elsewhere
	}
	switch {
	case e.Format > Format:
		return &Newer{Line: entry.Seq, Problem: fmt.Sprintf("its format is %d, and this program reads up to %d", e.Format, Format)}
	case e.Kind != "" && !slices.Contains(Kinds, e.Kind) && !slices.Contains(ownKinds, e.Kind):
		return &Newer{Line: entry.Seq, Problem: fmt.Sprintf("this program knows no event %.60q", e.Kind)}
	}
	return nil
}

// OtherProgram is a session that was begun with another version of the program, whose figures
// may differ. A version is empty where the build had none.
type OtherProgram struct{ Folder, Begun, This string }

// Code makes it a warning.
func (OtherProgram) Code() string { return "other-program" }

// BegunWith warns of a session that was begun with another version than the one given.
func (s *Session) BegunWith(this string) []warning.Warning {
	all, err := s.Events()
	if err != nil {
		return nil // who reads the events is told
	}
	i := slices.IndexFunc(all, func(e Event) bool { return e.Kind == Started })
	if i < 0 || all[i].Program == this {
		return nil
	}
	return []warning.Warning{OtherProgram{Folder: s.Folder, Begun: all[i].Program, This: this}}
}
