package calendar

import (
	"bytes"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"potlife/resins/document/visible"
)

// longest is how many octets a line may have without its break, 3.1.
const longest = 75

// lines are content lines, each ended by CRLF and folded, 3.1.
type lines struct{ bytes.Buffer }

// add writes one property. A fold is CRLF and a space; it falls between runes, since a
// reader may look at a line before it unfolds.
func (l *lines) add(name, value string) {
	used := 0
	for _, r := range name + ":" + value {
		if n := utf8.RuneLen(r); used+n > longest {
			l.WriteString("\r\n ")
			used = 1
		}
		used += utf8.RuneLen(r)
		l.WriteRune(r)
	}
	l.WriteString("\r\n")
}

var escapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// text is a TEXT value, 3.3.11. Control characters, which it cannot hold, and others that cannot
// be seen are shown by their numbers; what is no UTF-8 becomes the replacement character.
func text(s string) string { return visible.Lines(escapes.Replace(s)) }

// utc is a DATE-TIME in form 2, 3.3.5.
func utc(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// duration is a DURATION, 3.3.6, in minutes where it can.
func duration(d time.Duration) string {
	if d%time.Minute == 0 {
		return fmt.Sprintf("PT%dM", d/time.Minute)
	}
	return fmt.Sprintf("PT%dS", d/time.Second)
}
