package session

import "os"

// readWindow is how many bytes are read at a time, a few of the longest lines: memory is not
// to depend on the size that a broken file claims.
const readWindow = 4 * LongestLine

// catchUp reads and checks what was appended since the last look, and cuts off a torn
// tail. It needs the lock: without it a line that is just being written looks torn.
func (j *Journal) catchUp() error {
	size, err := j.size()
	if err != nil {
		return err
	}
	if size < j.length {
		return &Damaged{Path: j.path, Line: len(j.entries), Problem: "the file is shorter than it was: lines that were logged are gone"}
	}
	for j.length < size {
		text := make([]byte, min(readWindow, size-j.length))
		if _, err := j.file.ReadAt(text, j.length); err != nil {
			return &Failed{Doing: "read", Path: j.path, Err: err}
		}
		entries, good, damage := scan(text, len(j.entries))
		if damage != nil {
			damage.Path = j.path
			return damage
		}
		j.entries = append(j.entries, entries...)
		j.length += int64(good)
		if good == 0 {
			return j.cut(text) // no line is longer than the window: this is all that is left
		}
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

// cut takes a torn tail off the file and notes it.
func (j *Journal) cut(tail []byte) error {
	if len(tail) == 0 {
		return nil
	}
	if j.report.ReadOnly == nil {
		for _, entry := range j.entries {
			if n := newer(entry); n != nil {
				n.Path = j.path
				return n // what a later program has left there may be no torn line to it
			}
		}
		if err := j.shorten(); err != nil {
			return &Failed{Doing: "cut", Path: j.path, Err: err}
		}
	}
	j.report.Cut += len(tail)
	j.report.Line = len(j.entries) + 1
	j.report.Tail = string(tail)
	return nil
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
