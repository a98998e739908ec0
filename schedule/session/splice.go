package session

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
)

// A Scrap is a piece of a journal that is no sound line.
type Scrap struct {
	Line int    // the number that is due at its place
	Text string // as it stands there
	Torn bool   // it has no end: it was cut short while it was written
}

// A spliced journal is put together of a copy and of what is left of the original.
type spliced struct {
	entries  []Entry
	fromCopy []int   // numbers that only the copy has
	common   int     // lines that both have
	leftOut  []Entry // sound lines of the original that cannot follow: what comes before them is lost
	lost     []Scrap // of the original, where the copy has no line
}

// splice puts the lines of the copy and the later ones of the original together: as far as they
// go without a gap, each as its checksum says that it was written. Sound lines of one number
// that differ are refused: such a copy is of another session, or went its own way. With
// leaveOut those of the copy are taken where the two have begun as one.
func splice(copied []Entry, original []byte, leaveOut bool) (spliced, error) {
	own, scraps := salvage(original)
	s := spliced{entries: slices.Clone(copied)}
	for _, entry := range copied {
		is := own[entry.Seq]
		switch same := slices.IndexFunc(is, entry.same); {
		case len(is) == 0:
			s.fromCopy = append(s.fromCopy, entry.Seq)
		case same < 0 && (!leaveOut || s.common == 0):
			return spliced{}, conflict(entry.Seq, is[0], entry)
		case same < 0:
			s.fromCopy = append(s.fromCopy, entry.Seq)
		default:
			own[entry.Seq] = slices.Delete(is, same, same+1)
			s.common++
		}
	}
	for {
		seq, after := len(s.entries)+1, nextAfter(s.entries)
		next := own[seq]
		i := slices.IndexFunc(next, func(e Entry) bool { return follows(after, e) == nil })
		if !leaveOut && len(next) > 1 {
			return spliced{}, conflict(seq, next[0], next[1])
		}
		if i < 0 || after == "" && len(next) > 1 {
			break // none, or nothing tells which
		}
		s.entries = append(s.entries, next[i])
		own[seq] = slices.Delete(next, i, i+1)
	}
	for _, seq := range slices.Sorted(maps.Keys(own)) {
		s.leftOut = append(s.leftOut, own[seq]...)
	}
	s.lost = slices.DeleteFunc(scraps, func(scrap Scrap) bool { return scrap.Line <= len(s.entries) })
	return s, nil
}

func (e Entry) same(other Entry) bool { return bytes.Equal(e.Payload, other.Payload) }

func conflict(seq int, one, other Entry) *Refusal {
	return refuse("name a copy of this session; if both were logged into, add --leave-out to go on with the lines of the copy:\n   the others stay in a file beside the journal, and are listed to be logged again",
		"line %d is sound twice and says two things:\n   %.200s\n   %.200s", seq, one.Payload, other.Payload)
}

// salvage finds the sound lines of a journal by their numbers, wherever they stand, and what else
// there is. A line that stands there twice is one.
func salvage(text []byte) (lines map[int][]Entry, scraps []Scrap) {
	lines = map[int][]Entry{}
	last := 0 // the number of the line before
	for len(text) > 0 {
		if entry, length := soundLine(text); length > 0 {
			if last = entry.Seq; !slices.ContainsFunc(lines[last], entry.same) {
				lines[last] = append(lines[last], entry)
			}
			text = afterLine(text[length:])
			continue
		}
		line, rest := scrap(text)
		if len(line) > 0 {
			scraps = append(scraps, Scrap{Line: last + 1, Text: string(line), Torn: len(rest) == 0 && tornOrDamaged(line, last+1) == nil})
		}
		text = bytes.TrimPrefix(rest, []byte("\n"))
	}
	return lines, scraps
}

// scrap is what comes before the next end or begin of a line.
func scrap(text []byte) (line, rest []byte) {
	end := len(text)
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		end = i
	}
	if i := bytes.Index(text[min(1, end):end], []byte(`{"`+seqField+`":`)); i >= 0 {
		end = i + 1
	}
	return text[:end], text[end:]
}

// soundLine reads the line that text begins with, whatever its number, up to its checksum; the
// length is 0 where it is not sound. Neither its end nor its place counts.
func soundLine(text []byte) (entry Entry, length int) {
	if text[0] != '{' {
		return Entry{}, 0
	}
	tab := bytes.IndexByte(text[:min(len(text), LongestLine)], '\t')
	length = tab + 1 + sumDigits
	if tab < 0 || length > len(text) {
		return Entry{}, 0
	}
	var number struct {
		Seq int `json:"seq"`
	}
	if json.Unmarshal(text[:tab], &number) != nil || number.Seq < 1 {
		return Entry{}, 0
	}
	entry, err := decode(text[:length], number.Seq)
	if err != nil {
		return Entry{}, 0
	}
	return entry, length
}

// afterLine leaves out the end of a line, which may be another byte by now.
func afterLine(text []byte) []byte {
	text = bytes.TrimPrefix(text, []byte("\r"))
	if len(text) > 0 && text[0] != '{' {
		text = text[1:]
	}
	return text
}

// textOf is the journal of entries.
func textOf(entries []Entry) []byte {
	var text []byte
	for _, entry := range entries {
		text = fmt.Appendf(text, "%s\t%s\n", entry.Payload, checksum(entry.Payload))
	}
	return text
}
