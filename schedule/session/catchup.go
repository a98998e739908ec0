package session

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// readWindow is how many bytes are read at a time, a few of the longest lines: memory is not
// to depend on the size that a broken file claims.
const readWindow = 4 * LongestLine

// catchUp reads and checks what was appended since the last look, and notes a torn tail. It
// changes nothing. It needs the lock: without it a line that is just being written looks torn.
func (j *Journal) catchUp() error {
	acknowledged, counted := readCount(filepath.Dir(j.path))
	size, err := j.size()
	if err != nil {
		return err
	}
	if size < j.length {
		return &Damaged{Path: j.path, Line: len(j.entries), Problem: "the file is shorter than it was: lines that were logged are gone"}
	}
	j.tail = nil
	for j.length < size && j.tail == nil {
		text := make([]byte, min(readWindow, size-j.length))
		if _, err := j.file.ReadAt(text, j.length); err != nil {
			return &Failed{Doing: "read", Path: j.path, Err: err}
		}
		if err := j.read(text); err != nil {
			return err
		}
	}
	if damage := acknowledged.check(j.entries); damage != nil {
		damage.Path = j.path
		return damage
	}
	j.report.Uncounted = !counted && len(j.entries) > 0 && chained(j.entries)
	if len(j.tail) > 0 {
		j.report.Cut, j.report.Line, j.report.Tail = len(j.tail), len(j.entries)+1, string(j.tail)
	}
	return nil
}

// read takes in a window of the file, which begins where the entries end.
func (j *Journal) read(text []byte) error {
	if j.unended {
		end := len(text) - len(bytes.TrimPrefix(bytes.TrimPrefix(text, []byte("\r")), []byte("\n")))
		if end == 0 || text[end-1] != '\n' {
			return &Damaged{Path: j.path, Line: len(j.entries), Problem: "its end was changed after it was logged"}
		}
		j.length += int64(end)
		j.unended = false
		text = text[end:]
	}
	entries, good, damage := scan(text, j.entries)
	if damage != nil {
		damage.Path = j.path
		return damage
	}
	j.entries = append(j.entries, entries...)
	j.length += int64(good)
	j.unended = good > 0 && text[good-1] != '\n'
	if good == 0 {
		j.tail = text // no line is longer than the window: this is all that is left
	}
	return nil
}

// size is the length of the file in bytes, if the file is still the one in the folder:
// what goes to a file that someone replaced is lost.
func (j *Journal) size() (int64, error) {
	info, err := j.file.Stat()
	if err != nil {
		return 0, &Failed{Doing: "read", Path: j.path, Err: err}
	}
	if inFolder, err := os.Stat(j.path); err != nil || !os.SameFile(info, inFolder) {
		return 0, &Failed{Doing: "read", Path: j.path, Err: errReplaced}
	}
	return info.Size(), nil
}

// cut takes a torn tail off the file, which keeps the next line from it, and keeps it beside
// the journal: it is what is left of something that somebody meant to log.
func (j *Journal) cut() error {
	if len(j.tail) == 0 {
		return nil
	}
	for _, entry := range j.entries {
		if n := newer(entry); n != nil {
			n.Path = j.path
			return n // what a later program has left there may be no torn line to it
		}
	}
	kept, err := j.keepTail()
	if err != nil {
		return &Failed{Doing: "keep", Path: filepath.Join(filepath.Dir(j.path), kept), Err: err}
	}
	if err := j.shorten(); err != nil {
		return &Failed{Doing: "cut", Path: j.path, Err: err}
	}
	j.tail, j.report.Kept = nil, kept
	return nil
}

// keepTail writes the tail into a new file, journal.cut-1.jsonl or with the first number that is
// free.
func (j *Journal) keepTail() (name string, err error) {
	folder := filepath.Dir(j.path)
	for n := 1; ; n++ {
		name = asideName(Name, "cut", n)
		f, err := os.OpenFile(filepath.Join(folder, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return name, err
		}
		_, err = f.Write(j.tail)
		if err == nil {
			err = j.sync(f)
		}
		if err := errors.Join(err, f.Close()); err != nil {
			return name, err
		}
		return name, j.syncFolder(folder)
	}
}

// shorten brings the file back to its entries.
func (j *Journal) shorten() error {
	if err := j.file.Truncate(j.length); err != nil {
		return err
	}
	if err := j.file.Sync(); err != nil {
		j.dead = err
		return err
	}
	return nil
}
