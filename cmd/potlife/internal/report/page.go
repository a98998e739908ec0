package report

import (
	"fmt"
	"io"
)

// Width is the number of characters that text is folded to, where no Page says less.
const Width = 80

// least is the narrowest page: below it words stand one to a line, which nobody reads.
const least = 30

// A Page is a writer with room for so many characters a line. Text written to it folds
// to that, and a table that is wider is told row by row.
type Page struct {
	io.Writer
	Columns int
}

// columns is the room on what text is written to.
func columns(w io.Writer) int {
	if p, ok := w.(Page); ok && p.Columns > 0 {
		return min(Width, max(least, p.Columns))
	}
	return Width
}

// Fold breaks a text at its blanks to the room on what it is written to, its first line and
// the rest after their indents.
func Fold(w io.Writer, text, first, rest string) string {
	return foldTo(columns(w), text, first, rest)
}

// say writes a text folded to the page, its first line and the rest after their indents.
func say(w io.Writer, text, first, rest string) {
	fmt.Fprint(w, foldTo(columns(w), text, first, rest))
}
