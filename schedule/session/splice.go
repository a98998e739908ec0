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
	Torn bool   // it has no end: it was being written and was never acknowledged
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
// go without a gap, each as its checksum says that it was written. Two sound lines of one
// number that differ are refused: such a copy is of another session, or went its own way.
func splice(copied []Entry, original []byte) (spliced, error) {
	own, scraps, err := salvage(original)
	if err != nil {
		return spliced{}, err
	}
	s := spliced{entries: slices.Clone(copied)}
	for _, entry := range copied {
		is, there := own[entry.Seq]
		switch {
		case !there:
			s.fromCopy = append(s.fromCopy, entry.Seq)
		case !bytes.Equal(is.Payload, entry.Payload):
			return spliced{}, conflict(entry.Seq, is, entry)
		default:
			s.common++
		}
	}
	for {
		entry, there := own[len(s.entries)+1]
		if !there {
			break
		}
		s.entries = append(s.entries, entry)
	}
	for _, seq := range slices.Sorted(maps.Keys(own)) {
		if seq > len(s.entries) {
			s.leftOut = append(s.leftOut, own[seq])
		}
	}
	s.lost = slices.DeleteFunc(scraps, func(scrap Scrap) bool { return scrap.Line <= len(s.entries) })
	return s, nil
}

func conflict(seq int, one, other Entry) *Refusal {
	return refuse("name a copy of this session; if events were logged into the copy, log them in the session",
		"line %d is sound twice and says two things:\n   %.200s\n   %.200s", seq, one.Payload, other.Payload)
}

// salvage finds the sound lines of a journal, wherever they stand, and what else there is.
func salvage(text []byte) (lines map[int]Entry, scraps []Scrap, err error) {
	lines = map[int]Entry{}
	last := 0 // the number of the line before
	for len(text) > 0 {
		if entry, length := soundLine(text); length > 0 {
			if before, twice := lines[entry.Seq]; twice && !bytes.Equal(before.Payload, entry.Payload) {
				return nil, nil, conflict(entry.Seq, before, entry)
			}
			lines[entry.Seq], last = entry, entry.Seq
			text = afterLine(text[length:])
			continue
		}
		line, rest := scrap(text)
		if len(line) > 0 {
			scraps = append(scraps, Scrap{Line: last + 1, Text: string(line), Torn: len(rest) == 0 && tornOrDamaged(line, last+1) == nil})
		}
		text = bytes.TrimPrefix(rest, []byte("\n"))
	}
	return lines, scraps, nil
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
