package session

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A Copied is a copy of a session that was read back and checked.
type Copied struct {
	Folder  string
	Events  int
	Earlier int      // events of the earlier copy that it replaced; 0: there was none
	Files   []string // its files, the journal first
}

// CopyTo copies the journal as it was last read, and what lies beside it, to a folder that is
// made. An existing folder gets the copy inside, under the name of the session. An earlier
// copy of this session is brought up to date; anything else that stands there is refused, and
// so is a place where the copy would be lost with the session or be taken for it.
//
// The error is a [*Refusal], a document's where the job or the resin cannot be read, and the
// journal's own otherwise.
func (s *Session) CopyTo(to string) (Copied, error) {
	if _, err := s.Setting(); err != nil {
		return Copied{}, err
	}
	if _, err := s.Day(); err != nil {
		return Copied{}, err // of this journal, before the copy of it is found to be no day
	}
	files, err := readFiles(s.Folder)
	if err != nil {
		return Copied{}, err
	}
	text, entries, err := s.Journal.text()
	if err != nil {
		return Copied{}, err
	}
	setJournal(files, text, entries)
	target, err := s.placeFor(to)
	if err != nil {
		return Copied{}, err
	}
	copied := Copied{Folder: target, Events: len(entries), Files: present(files)}
	earlier, err := s.earlierCopy(target, files)
	switch {
	case err != nil:
		return Copied{}, err
	case earlier == nil:
		err = newFolder(target, files)
	default:
		earlier, err = s.update(target, earlier, files)
		lines, _, _ := scan(earlier[Name], nil) // sound, else it would not have been replaced
		copied.Earlier = len(lines)
	}
	return copied, err
}

// update brings an earlier copy up to date under its own lock and returns what it replaced. The
// copy is read again under the lock: events may have been logged into it since it was looked
// at, and the part of a file that another copy command is writing there is not to be removed.
// Only a folder that was found to be a copy gets the lock's file.
func (s *Session) update(target string, seen, files map[string][]byte) (map[string][]byte, error) {
	release, err := takeLock(lockPath(filepath.Join(target, Name)), patience)
	if refusesWrites(err) && maps.EqualFunc(seen, files, bytes.Equal) {
		return seen, verify(target, files) // a disk that was made read-only with a copy that is up to date
	}
	if err != nil {
		return nil, err
	}
	defer release()
	earlier, err := s.earlierCopy(target, files)
	if err != nil {
		return nil, err
	}
	return earlier, bringTo(target, earlier, files)
}

// text returns the lines of the entries as they stand in the file, and the entries. They never
// change: others only append.
func (j *Journal) text() ([]byte, []Entry, error) {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	text := make([]byte, j.length)
	if n, err := j.file.ReadAt(text, 0); n < len(text) {
		return nil, nil, &Failed{Doing: "read", Path: j.path, Err: err}
	}
	return text, slices.Clone(j.entries), nil
}

// setJournal puts a journal among the files of a folder, with a newline behind its last line and
// the count of its entries.
func setJournal(files map[string][]byte, text []byte, entries []Entry) {
	if len(text) > 0 && text[len(text)-1] != '\n' {
		text = append(text[:len(text):len(text)], '\n')
	}
	files[Name] = text
	if files[CountName] = countText(entries); files[CountName] == nil {
		delete(files, CountName)
	}
}

// present lists the files that there are, the journal first.
func present(files map[string][]byte) []string {
	return slices.DeleteFunc(allFiles(), func(name string) bool {
		_, there := files[name]
		return !there
	})
}

// placeFor is the folder of the copy.
func (s *Session) placeFor(to string) (string, error) {
	here, err := filepath.Abs(s.Folder) // it may be called .
	if err != nil {
		return "", err
	}
	switch info, err := os.Stat(to); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return "", refuse("name another folder", "%s cannot hold a copy: %v", to, errors.Unwrap(err))
	case !info.IsDir():
		return "", refuse("name a folder", "%s is a file", to)
	case !isThere(filepath.Join(to, Name)):
		to = filepath.Join(to, filepath.Base(here))
	}
	whole, err := filepath.Abs(to)
	if err != nil {
		return "", err
	}
	for up := whole; ; up = filepath.Dir(up) {
		if sameFile(up, here) {
			return "", refuse("name a folder outside it, best on another disk", "%s lies in the session: it would be lost with it", to)
		}
		if up == filepath.Dir(up) {
			break
		}
	}
	if called.MatchString(filepath.Base(whole)) && sameFile(filepath.Dir(whole), filepath.Dir(here)) {
		return "", refuse("name a folder elsewhere, best on another disk, or one whose name does not end in "+ending,
			"%s stands beside the session: commands would take the copy for a second session", to)
	}
	return to, nil
}

func isThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

func sameFile(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// earlierCopy reads the copy that stands at a place, nil where nothing does, and refuses
// whatever holds more than the files that it is replaced by.
func (s *Session) earlierCopy(target string, files map[string][]byte) (map[string][]byte, error) {
	const another = "name another folder"
	entries, err := os.ReadDir(target)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, refuse(another, "%s stands in the way: %v", target, errors.Unwrap(err))
	}
	for _, entry := range entries {
		if name := entry.Name(); !entry.Type().IsRegular() || !slices.Contains(append(allFiles(), lockName), name) && !strings.HasPrefix(name, partName) {
			return nil, refuse(another, "%s is no copy of a session: it holds %s", target, name)
		}
	}
	earlier, err := readFiles(target)
	if err != nil {
		return nil, err
	}
	text := earlier[Name]
	if _, _, damage := scan(text, nil); damage != nil {
		return nil, refuse("give the copy a new name; or remove the damaged copy, and copy again", "the copy %s is damaged: line %d of its journal: %s", target, damage.Line, damage.Problem)
	}
	if len(text) == 0 {
		return nil, refuse(another, "%s is no earlier copy of %s: it has no events", target, s.Folder)
	}
	if !bytes.HasPrefix(files[Name], text) {
		return nil, refuse(another+"; if the session lacks events that were logged before, put them back: potlife session restore "+target+" "+s.Folder,
			"%s is no earlier copy of %s: its journal is not the beginning of this one", target, s.Folder)
	}
	for _, name := range besides {
		if was, there := earlier[name]; there && !bytes.Equal(was, files[name]) {
			return nil, refuse("compare them; if the copy is right, put it back: potlife session restore "+target+" "+s.Folder+"; else "+another,
				"%s of %s is not that of %s: one of them was changed", name, s.Folder, target)
		}
	}
	return earlier, nil
}

// newFolder makes a folder of a session that is read back and checked before it has its name.
func newFolder(folder string, files map[string][]byte) error {
	err := raise(folder, func(draft string) error {
		for name, content := range files {
			if err := writeSynced(filepath.Join(draft, name), content); err != nil {
				return &Failed{Doing: "write", Path: filepath.Join(folder, name), Err: err}
			}
		}
		if err := syncFolder(draft); err != nil {
			return err
		}
		return verify(draft, files)
	})
	var inner *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist) && !isThere(filepath.Dir(folder)):
		return refuse("make it first; on a stick or a share, look whether it is there", "there is no folder %s to put %s in", filepath.Dir(folder), filepath.Base(folder))
	case errors.As(err, &inner): // of the draft, whose name means nothing to whoever copies
		return &Failed{Doing: "create", Path: folder, Err: inner.Err}
	}
	return err
}

// bringTo replaces the files of a folder that are not what they are to be, the journal behind
// the others: whenever this ends, each file is the old one or the new one. In between there is
// no count, which must belong to the journal. It needs the folder's lock.
func bringTo(folder string, is, want map[string][]byte) error {
	removeParts(folder)
	if was, there := is[CountName]; there && !bytes.Equal(was, want[CountName]) {
		path := filepath.Join(folder, CountName)
		if err := os.Remove(path); err != nil {
			return &Failed{Doing: "write", Path: path, Err: err}
		}
	}
	for _, name := range append(slices.Clone(besides), Name, CountName) {
		content, wanted := want[name]
		if was, there := is[name]; !wanted || there && bytes.Equal(was, content) {
			continue
		}
		if err := replace(folder, name, content); err != nil {
			return err
		}
	}
	return verify(folder, want)
}

// removeParts removes what killed commands have left; what does not go does no harm. It needs
// the lock: without it a part may be that of a command that runs.
func removeParts(folder string) {
	entries, _ := os.ReadDir(folder)
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), partName) {
			_ = os.Remove(filepath.Join(folder, entry.Name()))
		}
	}
}
