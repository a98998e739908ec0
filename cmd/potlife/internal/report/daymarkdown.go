package report

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"potlife/resins/document/visible"
)

// Markdown writes the day as a page of Markdown, with tables as GitHub and most others read
// them.
func (d *Day) Markdown(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n%s\n\n", verbatim(d.Name), verbatim(d.heading()))
	bullets(&b, d.Verdict)
	for _, t := range d.tables() {
		fmt.Fprintf(&b, "\n## %s\n\n", verbatim(t.Title))
		t.markdown(&b)
		if t.Note != "" {
			fmt.Fprintf(&b, "\n%s\n", verbatim(upper(t.Note)+"."))
		}
	}
	for _, s := range d.lists() {
		fmt.Fprintf(&b, "\n## %s\n\n", verbatim(s.Title))
		bullets(&b, s.Lines)
	}
	fmt.Fprintf(&b, "\n%s\n", verbatim(d.foot()))
	_, err := io.WriteString(w, b.String())
	return err
}

// A dayList is a heading with lines.
type dayList struct {
	Title string
	Lines []string
}

// lists are those that have lines.
func (d *Day) lists() []dayList {
	var list []dayList
	doubts := d.Warnings
	if d.Fractions != nil {
		doubts = append(doubts[:len(doubts):len(doubts)], d.Fractions.Warnings...)
	}
	for _, l := range []dayList{{"Doubts", doubts}, {"Take care", d.Cautions}} {
		if len(l.Lines) > 0 {
			list = append(list, l)
		}
	}
	return list
}

func bullets(b *strings.Builder, lines []string) {
	for _, line := range lines {
		fmt.Fprintf(b, "- %s\n", verbatim(line))
	}
}

func (t *dayTable) markdown(b *strings.Builder) {
	row := func(cells []string) {
		b.WriteString("|")
		for _, cell := range cells {
			b.WriteString(" " + verbatim(cell) + " |")
		}
		b.WriteString("\n")
	}
	row(t.Head)
	b.WriteString("|")
	for i := range t.Head {
		if t.Words(i) {
			b.WriteString(" :-- |")
		} else {
			b.WriteString(" --: |")
		}
	}
	b.WriteString("\n")
	for _, cells := range t.Rows {
		row(cells)
	}
}

// meaning are the signs that would make something of a person's text: CommonMark takes a
// backslash before any of them for the sign itself.
const meaning = "\\`*_[]<>|#~&"

// verbatim makes one line of a text that means nothing but itself in Markdown, nor in the HTML
// that is made of it.
func verbatim(text string) string {
	var b strings.Builder
	for _, r := range oneLine(text) {
		if strings.ContainsRune(meaning, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// oneLine makes blanks of what breaks a line, and shows what cannot be seen.
func oneLine(text string) string {
	return strings.TrimSpace(visible.Text(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "?"))))
}
