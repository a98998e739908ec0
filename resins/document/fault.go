package document

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Fault is one thing wrong with a document.
type Fault struct {
	File         string // or the flag that held the text
	Line, Column int    // from 1; the column counts characters
	Excerpt      string // the line, and a caret below the column
	Problem      string
	Mend         string

	path string
}

// Error shows where the fault is, the line with a caret, and the mend.
func (f Fault) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s\n%s\n   %s", f.File, f.Line, f.Column, f.Problem, f.Excerpt, f.Mend)
}

// Faults are all faults of a document in the order of their lines; never empty.
type Faults struct{ List []Fault }

// mostShown keeps the answer to a thoroughly wrong file readable.
const mostShown = 30

// Error shows the faults one after another, then their number if there are several.
func (f *Faults) Error() string {
	parts := make([]string, 0, len(f.List)+1)
	for _, fault := range f.List[:min(len(f.List), mostShown)] {
		parts = append(parts, fault.Error())
	}
	switch n := len(f.List); {
	case n > mostShown:
		parts = append(parts, fmt.Sprintf("%d faults, the first %d are shown", n, mostShown))
	case n > 1:
		parts = append(parts, fmt.Sprintf("%d faults", n))
	}
	return strings.Join(parts, "\n")
}

func sortFaults(faults []Fault) []Fault {
	faults = slices.Clone(faults)
	slices.SortStableFunc(faults, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(faults)
}

// Widths of an excerpt, in characters: what a terminal of 80 columns shows.
const (
	widest = 70
	margin = 50 // shown before the column of a long line
)

// excerpt shows a line with a caret below a column, cutting a long line around it.
func excerpt(line string, number, column int) string {
	runes := []rune(strings.Map(printable, line))
	start := 0
	if len(runes) > widest {
		start = max(0, min(column-1-margin, len(runes)-widest))
		runes = runes[start:min(len(runes), start+widest)]
	}
	caret := strings.Repeat(" ", max(0, column-1-start)) + "^"
	return fmt.Sprintf("%5d | %s\n      | %s", number, string(runes), caret)
}

// printable keeps one character for one, so that the caret stays below its column.
func printable(r rune) rune {
	switch {
	case r == '\t' || unicode.IsSpace(r):
		return ' '
	case !unicode.IsPrint(r):
		return unicode.ReplacementChar
	}
	return r
}

// shown makes a person's text fit to stand inside a message.
func shown(text string) string {
	runes := []rune(strings.Map(printable, strings.TrimSpace(text)))
	if len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	if len(runes) == 0 {
		return `""`
	}
	return string(runes)
}
