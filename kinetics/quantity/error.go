package quantity

import (
	"fmt"
	"strings"
	"unicode"
)

// Error refuses a text: what was written, what is wrong with it and how to mend it.
type Error struct{ Text, Problem, Mend string }

// Error returns text, problem and mend on one line.
func (e *Error) Error() string {
	text := excerpt(e.Text)
	if text == "" || strings.Contains(e.Problem, text) {
		return e.Problem + "; " + e.Mend
	}
	return text + ": " + e.Problem + "; " + e.Mend
}

// longest keeps a message on a line even if the text is a whole file.
const longest = 60

// excerpt makes a person's text fit to be shown inside a message.
func excerpt(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, strings.TrimSpace(text))
	if runes := []rune(text); len(runes) > longest {
		return string(runes[:longest]) + "…"
	}
	return text
}

func writeLike(example string) string { return "write it like this: " + excerpt(example) }

func refuse(text, mend, problem string, args ...any) *Error {
	return &Error{Text: text, Problem: fmt.Sprintf(problem, args...), Mend: mend}
}
