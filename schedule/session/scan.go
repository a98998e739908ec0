package session

import (
	"bytes"
	"fmt"
)

// scan reads the lines of text, which follow those before. It returns their entries and how
// many bytes they take; what lies behind is the torn tail. A last line that is whole but for
// its newline is an entry: it may have been acknowledged, and its checksum says that it is as
// it was written. The error is a *Damaged without a path; the entries are then those above
// the damage.
func scan(text []byte, before []Entry) (entries []Entry, good int, damage *Damaged) {
	after := nextAfter(before)
	for good < len(text) {
		number := len(before) + len(entries) + 1
		rest := text[good:]
		end := bytes.IndexByte(rest, '\n')
		whole := end >= 0
		if !whole {
			end = len(rest)
		}
		// A journal that went through git or an editor may have other line ends; its events
		// are whole, as their checksums say.
		line := bytes.TrimSuffix(rest[:end], []byte("\r"))
		if whole && len(line) >= LongestLine {
			return entries, good, &Damaged{Line: number, Problem: "it is longer than any line of a journal"}
		}
		entry, err := decode(line, number)
		if !whole && (err != nil || len(line) >= LongestLine) {
			return entries, good, tornOrDamaged(rest, number)
		}
		if err == nil {
			err = follows(after, entry)
		}
		if err != nil {
			return entries, good, &Damaged{Line: number, Problem: err.Error()}
		}
		entries = append(entries, entry)
		if after != "" && entry.After != "" {
			after = entry.sum()
		} else {
			after = ""
		}
		good += end
		if whole {
			good++
		}
	}
	return entries, good, nil
}

// follows checks that a line was written behind the one whose checksum is given, as
// [nextAfter] has it: a line of another journal, or one behind a line that was replaced, has
// the number that is due and another checksum of the line before.
func follows(after string, entry Entry) error {
	switch {
	case entry.After == after, after == "", entry.Seq == 1 && entry.After == "":
		return nil // the last two are of a journal that is no chain
	case entry.Seq == 1:
		return fmt.Errorf("it was logged behind another line, %.20q, and is the first here", entry.After)
	}
	return fmt.Errorf("it was logged behind another line than line %d: that one was replaced, or this one is from another journal", entry.Seq-1)
}

// tornOrDamaged tells a last line without newline that can be the beginning of a line,
// cut short, from one that cannot: that one may have been acknowledged.
func tornOrDamaged(tail []byte, number int) *Damaged {
	if len(tail) >= LongestLine {
		return &Damaged{Line: number, Problem: "it has no end and is longer than any line of a journal"}
	}
	tab := bytes.IndexByte(tail, '\t')
	if tab < 0 {
		return nil
	}
	whole := tab + 1 + sumDigits
	if len(tail) <= whole {
		return nil
	}
	if _, err := decode(tail[:whole], number); err == nil {
		return &Damaged{Line: number, Problem: "its end was changed after it was logged"}
	}
	return nil
}
