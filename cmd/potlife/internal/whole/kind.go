package whole

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash/crc32"
	"regexp"
	"slices"
	"strings"
)

// A Kind is a kind of files that the program writes. A file says of itself which kind it is of,
// by a mark with a checksum of all else in it: one that a person changed is not taken for what
// can be written again. Tables and calendars have no place for a mark; they are known by their
// headings and by the name of this program.
type Kind struct {
	Name  string                    // with its article, as in "a plan sheet"
	wrap  func(mark string) string  // the mark as the format has comments; nil: it has none
	place func(content []byte) int  // where it stands; nil: at the beginning
	knows func(content []byte) bool // where there is no mark
}

// The kinds that the program writes.
var (
	Sheet       = Kind{Name: "a plan sheet", wrap: inMeta, place: behind(`<head>\n`)}
	DayPage     = Kind{Name: "a day report", wrap: inMeta, place: behind(`<head>\n`)}
	DayMarkdown = Kind{Name: "a day report in Markdown", wrap: inComment, place: atEnd}
	Lessons     = Kind{Name: "a file of lessons", wrap: inLine}
	Record      = Kind{Name: "a fitted resin record", wrap: inLine}
	Statements  = Kind{Name: "a file of statements", wrap: inLine}
	Schema      = Kind{Name: "a JSON Schema", wrap: inMember, place: behind(`^\{\n`)}
	Calendar    = Kind{Name: "a calendar of pots", knows: func(content []byte) bool {
		return bytes.HasPrefix(content, []byte("BEGIN:VCALENDAR\r\n")) && bytes.Contains(content, []byte("\r\nPRODID:"+product+"\r\n"))
	}}
)

// product is how a calendar names this program.
const product = "-//potlife//potlife//EN"

// Chart is the kind of a drawing by the ending of its file, in any case and with its point.
func Chart(ending string) Kind {
	const name = "a chart"
	switch strings.ToLower(ending) {
	case ".png":
		return Kind{Name: name, wrap: inChunk, place: behindHeader}
	case ".pdf":
		return Kind{Name: name, wrap: inPDF, place: beforeTrailer}
	}
	return Kind{Name: name, wrap: inComment, place: behind(`^<\?xml[^>]*\?>\s`)}
}

// Table is the kind of a table that begins with these headings.
func Table(headings []byte) Kind {
	return Kind{Name: "a table with these columns", knows: func(content []byte) bool { return bytes.HasPrefix(content, headings) }}
}

// begins is how a mark begins; its checksum follows.
func (k Kind) begins() string { return "written by potlife as " + k.Name + ", check " }

// digits of a checksum: 64 bits, since nobody forges a sheet.
const digits = 16

// sum is the checksum of a content without its mark.
func sum(content []byte) string {
	all := sha256.Sum256(content)
	return hex.EncodeToString(all[:digits/2])
}

// mark adds the mark of the kind.
func (k Kind) mark(content []byte) []byte {
	if k.wrap == nil {
		return content
	}
	at := 0
	if k.place != nil {
		at = k.place(content)
	}
	return slices.Concat(content[:at], []byte(k.wrap(k.begins()+sum(content))), content[at:])
}

// What a file is to a kind.
type likeness int

const (
	other   likeness = iota // another kind, or nothing of this program
	changed                 // of the kind, and changed since it was written
	same
)

// likeness of a content to what the program writes.
func (k Kind) likeness(content []byte) likeness {
	if k.wrap == nil {
		if k.knows != nil && k.knows(content) {
			return same
		}
		return other
	}
	is := other
	for rest := content; ; {
		_, behind, found := bytes.Cut(rest, []byte(k.begins()))
		if !found {
			return is
		}
		is, rest = changed, behind
		check := string(behind[:min(digits, len(behind))])
		if before, after, whole := bytes.Cut(content, []byte(k.wrap(k.begins()+check))); whole && sum(slices.Concat(before, after)) == check {
			return same
		}
	}
}

func between(open, end string) func(mark string) string {
	return func(mark string) string { return open + mark + end }
}

// The marks of the formats.
var (
	inMeta    = between(`<meta name="generator" content="`, "\">\n")
	inComment = between("<!-- ", " -->\n")
	inLine    = between("# ", "\n")
	inPDF     = between("%", "\n")
	// JSON Schema has this key for those who write one (draft 2020-12, core, 8.3).
	inMember = between("  \"$comment\": \"", "\",\n")
)

// behind is the place behind the first match of a pattern; the beginning without one.
func behind(pattern string) func(content []byte) int {
	compiled := regexp.MustCompile(pattern)
	return func(content []byte) int {
		if found := compiled.FindIndex(content); found != nil {
			return found[1]
		}
		return 0
	}
}

func atEnd(content []byte) int { return len(content) }

// beforeTrailer is a place in a PDF behind which nothing is in its table of objects.
func beforeTrailer(content []byte) int { return max(0, bytes.LastIndex(content, []byte("startxref"))) }

// A PNG (W3C, Portable Network Graphics, 5.3 and 11.3.4.3) begins with its signature and its
// header. A chunk is its length, its type, its data and a CRC of both.
const pngHeader = 8 + 4 + 4 + 13 + 4

func behindHeader(content []byte) int { return min(pngHeader, len(content)) }

func inChunk(mark string) string {
	const kind, key = "tEXt", "Software\x00"
	text := []byte(kind + key + mark)
	chunk := append(binary.BigEndian.AppendUint32(nil, uint32(len(key+mark))), text...)
	return string(binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(text)))
}
