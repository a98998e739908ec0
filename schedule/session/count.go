package session

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// CountName is the file that keeps how many lines of the journal were acknowledged. A journal
// that was cut at the end of a line is sound line by line: only this tells that lines are gone.
const CountName = "journal.count"

// A count is how many lines were acknowledged, and the checksum of the last of them.
type count struct {
	lines int
	sum   string
}

// The file has two records of one width, for the odd and the even counts. Each is written over
// the one of two lines ago, so that a write that is cut short leaves the count before it.
const (
	countRecord = len("         1 5a0f19c3 5a0f19c3\n")
	mostLines   = 9_999_999_999
)

func (c count) record() []byte {
	text := fmt.Sprintf("%10d %s", c.lines, c.sum)
	return fmt.Appendf(nil, "%s %s\n", text, checksum([]byte(text)))
}

func (c count) place() int64 { return int64(c.lines%2) * int64(countRecord) }

func countOf(entries []Entry) count {
	if len(entries) == 0 {
		return count{sum: noLine}
	}
	return count{len(entries), entries[len(entries)-1].sum()}
}

// chained tells whether the lines of a journal, none yet or those given, are a chain.
func chained(entries []Entry) bool { return nextAfter(entries) != "" }

// countText is the whole file for the entries of a journal; nil where that keeps no count.
func countText(entries []Entry) []byte {
	if !chained(entries) || len(entries) == 0 {
		return nil
	}
	last, before := countOf(entries).record(), countOf(entries[:len(entries)-1]).record()
	if len(entries)%2 == 0 {
		return append(last, before...)
	}
	return append(before, last...)
}

// parseCount reads the larger of the records that are whole, whatever ends their lines; false:
// there is none. A new file has zeros where the other record will be.
func parseCount(text []byte) (c count, known bool) {
	for _, record := range bytes.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' || r == 0 }) {
		var one count
		var sum string
		if _, err := fmt.Sscanf(string(record), "%d %8s %8s", &one.lines, &one.sum, &sum); err != nil || one.lines < 0 || one.lines > mostLines {
			continue
		}
		if bytes.Equal(bytes.TrimSuffix(one.record(), []byte("\n")), record) && (!known || one.lines > c.lines) {
			c, known = one, true
		}
	}
	return c, known
}

// readCount reads the count of a folder. It must be read before the journal where others may
// be logging: what was acknowledged by then is in the journal.
func readCount(folder string) (count, bool) {
	text, err := readWhole(filepath.Join(folder, CountName))
	if err != nil {
		return count{}, false // a count that is gone must not keep a crew from its journal
	}
	return parseCount(text)
}

// check compares entries with what was acknowledged. A count that is behind is no fault: the
// process that wrote the last lines was killed before it counted them.
func (c count) check(entries []Entry) *Damaged {
	switch {
	case len(entries) > 0 && !chained(entries):
		return nil
	case c.lines > len(entries):
		return &Damaged{Line: len(entries) + 1, Problem: fmt.Sprintf("%d lines were acknowledged, and here they end", c.lines)}
	case c.lines > 0 && entries[c.lines-1].sum() != c.sum:
		return &Damaged{Line: c.lines, Problem: "it is another line than the one that was acknowledged"}
	}
	return nil
}

// keepCount writes the count of all entries, once they are on the disk. Where it cannot be
// written the entries are no less there, so that this is told and refuses nothing.
func (j *Journal) keepCount() {
	if !chained(j.entries) {
		return
	}
	err := writeCount(filepath.Dir(j.path), countOf(j.entries), j.sync)
	j.report.Uncounted = err != nil
}

// writeCount writes one record in place.
func writeCount(folder string, c count, sync func(*os.File) error) error {
	path := filepath.Join(folder, CountName)
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	made := errors.Is(err, fs.ErrNotExist)
	if made {
		f, err = os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	}
	if err != nil {
		return err
	}
	_, err = f.WriteAt(c.record(), c.place())
	if err == nil {
		err = sync(f)
	}
	if err := errors.Join(err, f.Close()); err != nil || !made {
		return err
	}
	return syncFolder(folder)
}
