package session

import "bytes"

// scan reads the lines of text, which follow the first before lines of a journal. It
// returns the entries and how many bytes they take; what lies behind is the torn tail.
// The error is a *Damaged without a path; the entries are then those above the damage.
func scan(text []byte, before int) (entries []Entry, good int, damage *Damaged) {
	for good < len(text) {
		number := before + len(entries) + 1
		rest := text[good:]
		end := bytes.IndexByte(rest, '\n')
		if end < 0 {
			return entries, good, tornOrDamaged(rest, number)
		}
		// A journal that went through git or an editor may have other line ends; its events
		// are whole, as their checksums say.
		line := bytes.TrimSuffix(rest[:end], []byte("\r"))
		if len(line) >= LongestLine {
			return entries, good, &Damaged{Line: number, Problem: "it is longer than any line of a journal"}
		}
		entry, err := decode(line, number)
		if err != nil {
			return entries, good, &Damaged{Line: number, Problem: err.Error()}
		}
		entries = append(entries, entry)
		good += end + 1
	}
	return entries, good, nil
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
