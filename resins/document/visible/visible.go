// Package visible tells which characters of a text cannot be seen, or change how the text
// around them is shown: control characters and escapes, marks that turn the direction of
// writing, fillers and joiners without width. [Refuse] is for the door, where a person or a
// file hands a text in; [Text], [Lines], [Writer], [JSON] and [Escape] are for what was let
// in before and is shown now.
package visible

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// invisible are characters that are neither control nor format characters and leave no mark.
var invisible = []*unicode.RangeTable{unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector, unicode.Noncharacter_Code_Point}

// brailleBlank is a sign of Braille without a dot.
const brailleBlank = '\u2800'

// hidden tells whether a character cannot be seen where it stands. Joiners and variation
// selectors belong to the writing of some languages and to pictures: after a sign beyond
// Latin they are part of it.
func hidden(before, r rune) bool {
	switch {
	case r < 0x7f:
		return r < ' '
	case r == '\u200c', r == '\u200d', unicode.Is(unicode.Variation_Selector, r):
		return !(before > 0x24f && unicode.IsGraphic(before)) && !unicode.Is(unicode.Variation_Selector, before)
	}
	return r == brailleBlank || unicode.In(r, invisible...)
}

// names are those of the characters that are met most.
var names = map[rune]string{
	0: "a null character", '\a': "the bell", '\b': "a backspace", '\t': "a tab", '\n': "a line break", '\r': "a carriage return", 0x1b: "an escape",
	0x7f: "a delete character", 0x9b: "an escape", '\u00ad': "a soft hyphen", '\u061c': "a mark of writing from the right", '\u200b': "a space without width",
	'\u200e': "a mark of writing from the left", '\u200f': "a mark of writing from the right", '\u202a': "a turn of the writing to the right", '\u202b': "a turn of the writing to the left",
	'\u202c': "an end of turned writing", '\u202d': "writing forced to the right", '\u202e': "writing forced to the left", '\u2028': "a line break", '\u2029': "a line break",
	'\u2066': "a turn of the writing to the right", '\u2067': "a turn of the writing to the left", '\u2068': "a turn of the writing", '\u2069': "an end of turned writing", '\ufeff': "a byte order mark",
}

// Name is what a hidden character is, with its number.
func Name(r rune) string {
	if name, known := names[r]; known {
		return fmt.Sprintf("%s (%U)", name, r)
	}
	if unicode.IsControl(r) {
		return fmt.Sprintf("a control character (%U)", r)
	}
	return fmt.Sprintf("an invisible character (%U)", r)
}

// Find is the first hidden character of a text, none of those in except, and how many
// characters stand before it; -1 without one.
func Find(text, except string) (place int, r rune) {
	var before rune
	for _, r := range text {
		if hidden(before, r) && !strings.ContainsRune(except, r) {
			return place, r
		}
		before = r
		place++
	}
	return -1, 0
}

// Refuse says what is hidden in a text that may not hold it, and where; empty where nothing is.
// The characters of except may stand in it.
func Refuse(text, except string) string {
	place, r := Find(text, except)
	if place < 0 {
		return ""
	}
	return fmt.Sprintf("%s stands at character %d of “%s”", Name(r), place+1, Text(around(text, place)))
}

// Mend is what to do about a text that Refuse refuses.
const Mend = "write it without that character, in one line"

// around is the part of a long text in which a character stands.
func around(text string, place int) string {
	const before, most = 30, 60
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	start := max(0, min(place-before, len(runes)-most))
	return string(runes[start : start+most])
}

// Text shows hidden characters by their numbers, as in «U+202E»; what is no UTF-8 becomes the
// replacement character. A tab becomes a blank and a line break ⏎, since in old notes both were
// meant well.
func Text(text string) string { return shown(text, "") }

// Lines is Text for what has lines and tabs of its own.
func Lines(text string) string { return shown(text, "\n\t") }

func shown(text, except string) string {
	if place, _ := Find(text, except); place < 0 && utf8.ValidString(text) {
		return text
	}
	var b strings.Builder
	var before rune
	for _, r := range text {
		if hidden(before, r) && !strings.ContainsRune(except, r) {
			b.WriteString(sign(r))
		} else {
			b.WriteRune(r)
		}
		before = r
	}
	return b.String()
}

// sign stands for a hidden character. It means nothing in YAML, JSON, HTML or a spreadsheet.
func sign(r rune) string {
	switch r {
	case '\t':
		return " "
	case '\n':
		return "⏎"
	}
	return fmt.Sprintf("«%U»", r)
}

// Writer shows hidden characters of what is written to it, but for line breaks and tabs. Each
// Write must end between characters, as those of fmt do.
func Writer(w io.Writer) io.Writer { return writer{w} }

type writer struct{ io.Writer }

// Write writes the text as [Lines] shows it.
func (w writer) Write(text []byte) (int, error) {
	if _, err := io.WriteString(w.Writer, Lines(string(text))); err != nil {
		return 0, err
	}
	return len(text), nil
}

// Escape writes hidden characters of a JSON text as escapes, which mean the same: a terminal
// that shows the text acts on none.
func Escape(text []byte) []byte {
	if !bytes.ContainsFunc(text, func(r rune) bool { return r >= 0x7f }) {
		return text
	}
	var b bytes.Buffer
	var before rune
	for _, r := range string(text) {
		switch {
		case r < 0x7f || !hidden(before, r):
			b.WriteRune(r)
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
		before = r
	}
	return b.Bytes()
}

// JSON shows the hidden characters within the strings of a JSON text, written out or as
// escapes, by their numbers. The text may be of one that was kept from before Refuse stood at
// the door; one without any comes back as it is.
func JSON(text []byte) []byte { return unescaped(text, false) }

// YAML is JSON for the source of a YAML file. What only an escape within double quotes can
// write is shown too, but for line breaks and tabs.
func YAML(source []byte) []byte {
	const order = "\ufeff" // a byte order mark at the beginning is part of the encoding
	rest, marked := bytes.CutPrefix(source, []byte(order))
	if rest = unescaped(rest, true); marked {
		return append([]byte(order), rest...)
	}
	return rest
}

// unescaped shows what is hidden, also behind an escape.
func unescaped(text []byte, yaml bool) []byte {
	if !bytes.ContainsFunc(text, func(r rune) bool { return r == '\\' || r >= 0x7f }) {
		return text
	}
	var b bytes.Buffer
	var before rune
	rest := string(text)
	for rest != "" {
		r, size := utf8.DecodeRuneInString(rest)
		escaped := false
		if r == '\\' {
			r, size = escape(rest, yaml)
			escaped = true
		}
		keep := r == utf8.RuneError || r < 0x7f && !escaped || yaml && (r == '\n' || r == '\t' || r == '\r')
		if !keep && hidden(before, r) {
			b.WriteString(sign(r))
		} else {
			b.WriteString(rest[:size])
		}
		before, rest = r, rest[size:]
	}
	return b.Bytes()
}

// short are the escapes of one letter; those of YAML are more.
var (
	short     = map[byte]rune{'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}
	shortYAML = map[byte]rune{'0': 0, 'a': '\a', 'b': '\b', 'e': 0x1b, 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t', 'v': '\v', 'N': 0x85, 'L': '\u2028', 'P': '\u2029'}
)

// escape is the character that an escape at the beginning of a text writes, and its length.
func escape(text string, yaml bool) (r rune, size int) {
	if len(text) < 2 {
		return '\\', 1
	}
	letters, digits := short, map[byte]int{'u': 4}
	if yaml {
		letters, digits = shortYAML, map[byte]int{'x': 2, 'u': 4, 'U': 8}
	}
	if r, known := letters[text[1]]; known {
		return r, 2
	}
	n := digits[text[1]]
	if n == 0 || len(text) < 2+n {
		return '\\', 1 + utf8size(text[1:])
	}
	code, err := strconv.ParseUint(text[2:2+n], 16, 32)
	if err != nil {
		return '\\', 2
	}
	r, size = rune(code), 2+n
	if utf16.IsSurrogate(r) && len(text) >= size+6 && text[size:size+2] == `\u` {
		if low, err := strconv.ParseUint(text[size+2:size+6], 16, 32); err == nil && utf16.DecodeRune(r, rune(low)) != utf8.RuneError {
			return utf16.DecodeRune(r, rune(low)), size + 6
		}
	}
	return r, size
}

func utf8size(text string) int {
	_, size := utf8.DecodeRuneInString(text)
	return size
}
