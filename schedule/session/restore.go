package session

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A Restored is what was put back into the folder of a session, and what was not.
type Restored struct {
	Folder   string
	Events   int      // of the journal now
	FromCopy []int    // their numbers, those that only the copy had
	Written  []string // files that were put there
	Kept     []string // files under which what stood there before is kept
	LeftOut  []Event  // sound, and they cannot follow: what comes before them is lost, or is another line
	Lost     []Scrap  // what cannot be read and the copy does not hold
	Gone     []int    // numbers of events that were acknowledged and are nowhere
	Torn     bool     // the last line of the copy was cut short and is left out
}

// Restore puts a copy's journal, job, resin and lessons back into the folder of its session,
// which may be lost. Of a damaged journal it takes every sound line that fits on, so that
// what was logged after the copy is not lost; the damaged one is kept beside it. What can no
// longer follow is refused unless leaveOut: it is then only in the file that is kept. So are
// the lines of a journal that went another way than its copy.
//
// Without a copy, an empty name, the journal is what is left of itself up to the first line
// that is lost.
//
// The error is a [*Refusal] where nothing is to be put back or the copy does not fit; a
// [*Damaged] where the copy itself is.
func Restore(copied, folder string, leaveOut bool) (Restored, error) {
	if copied == "" {
		return restoreAlone(folder, leaveOut)
	}
	source, files, err := look(copied)
	if err != nil {
		return Restored{}, fmt.Errorf("the copy cannot be used: %w", err)
	}
	torn := len(files[Name]) > int(source.Journal.length)
	setJournal(files, files[Name][:source.Journal.length], source.Journal.entries)
	if sameFile(copied, folder) {
		return Restored{}, refuse("name the copy first, then the folder of the session", "%s is both the copy and the session", folder)
	}
	lost, err := isLost(folder)
	if err != nil {
		return Restored{}, err
	}
	if lost {
		r := Restored{Folder: folder, Events: len(source.Journal.entries), Written: present(files), Torn: torn}
		for _, entry := range source.Journal.entries {
			r.FromCopy = append(r.FromCopy, entry.Seq)
		}
		return r, newFolder(folder, files)
	}
	r, err := underLock(folder, func(is map[string][]byte) (Restored, error) { return putBack(source, files, folder, is, leaveOut) })
	r.Torn = torn
	return r, err
}

// restoreAlone restores a session from what is left of it.
func restoreAlone(folder string, leaveOut bool) (Restored, error) {
	if _, err := os.Stat(filepath.Join(folder, Name)); errors.Is(err, fs.ErrNotExist) {
		return Restored{}, noSession{fmt.Sprintf("%s is not the folder of a session: it has no %s", folder, Name)}
	}
	return underLock(folder, func(is map[string][]byte) (Restored, error) {
		none := &Session{Folder: folder, Journal: &Journal{}}
		return putBack(none, maps.Clone(is), folder, is, leaveOut)
	})
}

// underLock reads the folder of a session and restores it.
func underLock(folder string, restore func(is map[string][]byte) (Restored, error)) (Restored, error) {
	release, err := takeLock(lockPath(filepath.Join(folder, Name)), patience)
	if err != nil {
		return Restored{}, err
	}
	defer release()
	is, err := readFiles(folder)
	if err != nil {
		return Restored{}, err
	}
	r, err := restore(is)
	return r, inJournal(filepath.Join(folder, Name), err) // the copy's events were read before
}

// isLost tells whether there is no folder; one that cannot be that of a session is refused.
func isLost(folder string) (bool, error) {
	const name = "name the folder of the session, or one that is not there"
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return true, nil
	case err != nil:
		return false, refuse(name, "%s cannot be restored: %v", folder, errors.Unwrap(err))
	}
	// An earlier restore that was refused or killed may have left its lock and parts.
	entries = slices.DeleteFunc(entries, func(e os.DirEntry) bool { return e.Name() == lockName || strings.HasPrefix(e.Name(), partName) })
	known := slices.ContainsFunc(entries, func(e os.DirEntry) bool { return slices.Contains(allFiles(), e.Name()) })
	if len(entries) > 0 && !known {
		return false, refuse(name, "%s is not the folder of a session", folder)
	}
	return false, nil
}

// putBack restores a folder that is there, under its lock.
func putBack(source *Session, files map[string][]byte, folder string, is map[string][]byte, leaveOut bool) (Restored, error) {
	made, err := splice(source.Journal.entries, is[Name], leaveOut)
	if err != nil {
		return Restored{}, err
	}
	r := Restored{Folder: folder, Events: len(made.entries), FromCopy: made.fromCopy, Lost: made.lost}
	if r.LeftOut, err = events(made.leftOut); err != nil {
		return Restored{}, err
	}
	acknowledged, _ := parseCount(is[CountName])
	for i, scrap := range r.Lost {
		// What was acknowledged was not cut short as it was written, but later.
		r.Lost[i].Torn = scrap.Torn && scrap.Line > acknowledged.lines
	}
	r.Gone = r.goneOf(acknowledged.lines)
	want, err := source.wanted(files, is, made)
	if err != nil {
		return Restored{}, err
	}
	for _, name := range present(want) {
		if was, there := is[name]; name != CountName && (!there || !bytes.Equal(was, want[name])) {
			r.Written = append(r.Written, name)
		}
	}
	if len(r.Written) == 0 && acknowledged.check(made.entries) == nil {
		if err := lastsAsDay(made.entries); err != nil {
			return Restored{}, noDay(folder, err)
		}
		if len(source.Journal.entries) == 0 {
			return Restored{}, refuse("go on with it", "%s needs nothing: its journal is sound and has %d events", folder, len(made.entries))
		}
		return Restored{}, refuse("go on with it, and copy it again: potlife session copy "+folder+" "+source.Folder,
			"%s needs nothing from %s: its journal is sound and has %d events, the copy %d", folder, source.Folder, len(made.entries), len(source.Journal.entries))
	}
	if damage := noStart(made.entries); damage != nil {
		return Restored{}, refuse("name a copy: potlife session restore COPY "+folder+"; without one move the folder away and start a new session", "%s has no line that can be read from its start on", folder)
	}
	if gone := r.gone(); gone != "" && !leaveOut {
		return Restored{}, refuse("take a later copy; or add --leave-out: what is left out stays in a file beside the journal, and is to be logged again", "not all can be restored: %s", gone)
	}
	if err := lastsAsDay(made.entries); err != nil {
		return Restored{}, err
	}
	for _, name := range r.Written {
		if was, there := is[name]; there && !bytes.HasPrefix(want[name], was) {
			kept, err := keepAside(folder, name, was)
			if err != nil {
				return Restored{}, err
			}
			r.Kept = append(r.Kept, kept)
		}
	}
	return r, bringTo(folder, is, want)
}

// goneOf are the numbers up to the last acknowledged one that are neither restored nor named as
// left out or lost.
func (r *Restored) goneOf(last int) []int {
	var gone []int
	for seq := r.Events + 1; seq <= min(last, r.Events+mostGone); seq++ {
		named := slices.ContainsFunc(r.LeftOut, func(e Event) bool { return e.Seq == seq }) ||
			slices.ContainsFunc(r.Lost, func(s Scrap) bool { return s.Line == seq })
		if !named {
			gone = append(gone, seq)
		}
	}
	return gone
}

// mostGone bounds the numbers that a broken count can make.
const mostGone = 10_000

// wanted are the files that the folder is to have. A journal that is sound and holds all that
// the copy does stays as it is, to the byte.
func (s *Session) wanted(files, is map[string][]byte, made spliced) (map[string][]byte, error) {
	want := map[string][]byte{}
	for name, content := range files {
		want[name] = content
	}
	if made.common == 0 {
		// No line of the journal says that both are the same session.
		for _, name := range besides {
			if was, there := is[name]; there && !bytes.Equal(was, files[name]) {
				return nil, refuse("name a copy of this session, or restore into a folder that is not there", "%s of the copy is not that of the session, and no line of the journals shows that both are the same", name)
			}
		}
	}
	setJournal(want, textOf(made.entries), made.entries)
	if sound, _, damage := scan(is[Name], nil); damage == nil && bytes.Equal(textOf(sound), want[Name]) {
		want[Name] = is[Name]
	}
	return want, nil
}

// gone says what of the damaged journal is not in the one restored, empty for nothing.
func (r *Restored) gone() string {
	var parts []string
	for _, e := range r.LeftOut {
		parts = append(parts, fmt.Sprintf("e%d, %s at %s", e.Seq, e.Kind, e.At.Format(clockOnly)))
	}
	if len(parts) > 0 {
		list := strings.Join(parts, "; ")
		if r.LeftOut[0].Seq > r.Events+1 {
			return fmt.Sprintf("e%d is lost, and without it these cannot follow: %s", r.Events+1, list)
		}
		return "these were logged behind other lines than those of the copy: " + list
	}
	if n := len(r.Gone); n > 0 {
		if n == 1 {
			return fmt.Sprintf("e%d was acknowledged and is gone", r.Gone[0])
		}
		return fmt.Sprintf("e%d to e%d were acknowledged and are gone", r.Gone[0], r.Gone[n-1])
	}
	for _, scrap := range r.Lost {
		if !scrap.Torn {
			return fmt.Sprintf("line %d is damaged and the copy does not hold it: %.200q", scrap.Line, scrap.Text)
		}
	}
	return ""
}

// lastsAsDay refuses lines that are sound one by one and make no day.
func lastsAsDay(entries []Entry) error {
	all, err := eventsBehind(nil, entries)
	if err != nil {
		return err
	}
	_, err = played(all)
	return err
}

// noDay tells why nothing can be put back into a journal whose lines are as they were written and
// do not make a day: the advice to restore it, which a damaged one gets, would lead back here.
func noDay(folder string, err error) error {
	err = inJournal(filepath.Join(folder, Name), err)
	if d := new(Damaged); errors.As(err, &d) {
		return refuse("move the folder away; then restore a copy from before that line: potlife session restore COPY "+folder+"; without a copy start a new session and log again what the lines above it say",
			"%s:%d: every line is as it was written, so that nothing can be put back, and this one is none of a day: %s", d.Path, d.Line, d.Problem)
	}
	return err
}

// asideName is the file beside another one that keeps what that held.
func asideName(name, kind string, n int) string {
	ext := filepath.Ext(name)
	return fmt.Sprintf("%s.%s-%d%s", strings.TrimSuffix(name, ext), kind, n, ext)
}

// keepAside writes what a file held under the first free name of its kind, such as
// journal.damaged-1.jsonl. What is kept there already is not kept twice.
func keepAside(folder, name string, content []byte) (string, error) {
	for n := 1; ; n++ {
		kept := asideName(name, "damaged", n)
		is, err := readWhole(filepath.Join(folder, kept))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return kept, replace(folder, kept, content)
		case err == nil && bytes.Equal(is, content):
			return kept, nil
		}
	}
}
