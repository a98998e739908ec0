package quantity

import (
	"fmt"
	"strings"
	"unicode"
)

// Error refuses a text: what was written, what is wrong with it and how to mend it.
type Error struct {
	Text, Problem, Mend string

	Named bool // Problem shows Text

	// Lead and Like are the mend for whoever reads more after the quantity, which belongs
	// behind Like, the text to write. Both are empty where Mend offers no such text.
	Lead, Like string
}

// Error returns text, problem and mend on one line.
func (e *Error) Error() string {
	text := excerpt(e.Text)
	if text == "" || e.Named {
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

// A mend is what an [Error] says of it.
type mend struct{ whole, lead, like string }

// words is a mend that offers no text to write.
func words(text string) mend { return mend{whole: text} }

// offer is a mend that ends with a text to write. The text is copied, since keeping it would
// cost an allocation where all is well.
func offer(lead, like string) mend {
	shown := strings.Clone(excerpt(like))
	return mend{lead + shown, lead, shown}
}

func writeLike(example string) mend { return offer("write it like this: ", example) }

// refuse makes the error of a text. What the problem shows of the text, if anything, comes first
// among its arguments.
func refuse(text string, m mend, problem string, args ...any) *Error {
	named := len(args) > 0 && args[0] == excerpt(text)
	return &Error{Text: text, Problem: fmt.Sprintf(problem, args...), Mend: m.whole, Named: named, Lead: m.lead, Like: m.like}
}
