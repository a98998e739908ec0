package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"potlife/kinetics/vessel"
)

// Alarm is how loud a display is to be.
type Alarm int

// The alarms, in order: the reserve is all that is surely left; nothing surely is.
const (
	Calm Alarm = iota
	ReserveReached
	LifeOver
)

// Alarm of the answer: what counts is what is surely left if the tow stops.
func (c *Check) Alarm() Alarm {
	switch {
	case c.Bath == nil || c.Done:
		return Calm
	case c.Over() || c.StoppedSureS != nil && *c.StoppedSureS <= 0:
		return LifeOver
	case c.StoppedSureS != nil && *c.StoppedSureS <= c.ReserveS:
		return ReserveReached
	}
	return Calm
}

// Finished tells whether there is nothing more to watch.
func (c *Check) Finished() bool { return c.Done }

// A Screen is the size that a display has to fit in; the zero value is none.
type Screen struct{ Width, Height int }

// Large writes the answer to be read from a few steps away: the time that is surely left in
// large figures, the advice, and little else. What has no room on the screen is left out
// from its end, after the empty lines and the headline: doubts first, then the bar, and the
// advice last.
func (c *Check) Large(w io.Writer, screen Screen, at time.Time) {
	width := Width
	if screen.Width > 0 {
		width = min(width, screen.Width)
	}
	text := func(words string) string { return foldTo(width, words, "", "  ") }
	var b strings.Builder
	head := text(c.headline())
	b.WriteString(head + "\n")
	if c.Bath == nil {
		b.WriteString("There is no resin in the bath.\n")
	} else {
		what := "surely left"
		if c.Running {
			what = "surely left, should the tow stop"
		}
		b.WriteString(text(what) + "\n" + figures(c.StoppedSureS, width))
	}
	switch c.Alarm() {
	case ReserveReached:
		b.WriteString("\n*** THE RESERVE IS REACHED ***\n")
	case LifeOver:
		b.WriteString("\n*** NOTHING IS SURELY LEFT ***\n")
	}
	b.WriteString("\n" + text(c.order()))
	for _, line := range c.urgent {
		b.WriteString(text("LOOK AGAIN: " + line + "."))
	}
	if next := c.nextLine(); next != "" {
		b.WriteString(text(next))
	}
	if c.Bath != nil {
		b.WriteString("\n" + c.bar(width) + "\n" + text(c.likelyLine()))
	}
	b.WriteString("\nas of " + at.Format("15:04:05") + "\n")
	for _, warning := range c.laterDoubts() {
		b.WriteString(text("doubt: " + warning))
	}
	lines := strings.SplitAfter(strings.TrimSuffix(b.String(), "\n"), "\n")
	if screen.Height > 0 && len(lines) >= screen.Height {
		lines = slices.DeleteFunc(lines, func(line string) bool { return line == "\n" })
	}
	if whole := slices.IndexFunc(lines, func(line string) bool { return strings.HasPrefix(line, "as of ") }); screen.Height > 0 && whole >= screen.Height {
		lines = lines[strings.Count(head, "\n"):]
	}
	if screen.Height > 0 && len(lines) >= screen.Height {
		lines = lines[:screen.Height-1]
	}
	fmt.Fprintln(w, strings.TrimSuffix(strings.Join(lines, ""), "\n"))
}

func (c *Check) likelyLine() string {
	end := c.Limits.words(vessel.Limit(c.EndsBy))
	if c.StoppedS != nil && *c.StoppedS <= 0 {
		return "likely nothing: " + end
	}
	return fmt.Sprintf("likely %s; then %s", span(c.StoppedS), end)
}

// The bar of what is left has so many characters, less on a narrow screen, and a legend.
const (
	barWidth  = 60
	barLegend = "]  # reserve"
)

// bar shows what is surely left, the reserve within it, on a scale of the life that it is a
// part of.
func (c *Check) bar(width int) string {
	cells := max(1, min(barWidth, width-1-len(barLegend)))
	left, whole := 0.0, c.answer.Bath.Age
	if c.StoppedSureS == nil {
		return "[" + strings.Repeat("=", cells) + "]"
	}
	left = math.Max(0, *c.StoppedSureS)
	scale := float64(cells) / math.Max(1, float64(whole)+left)
	n := int(math.Round(left * scale))
	reserve := min(n, int(math.Round(c.ReserveS*scale)))
	return "[" + strings.Repeat("#", reserve) + strings.Repeat("=", n-reserve) + strings.Repeat(" ", cells-n) + barLegend
}

// figures draws a time left in large digits, rounded down, half as wide where the screen has no
// room for them. A character of a terminal is twice as high as wide.
func figures(s *float64, width int) string {
	text := "2d+"
	if s != nil {
		minutes := int(math.Floor(math.Max(0, *s) / 60))
		text = fmt.Sprintf("%dmin", minutes)
		if minutes >= 100 {
			text = fmt.Sprintf("%dh%02d", minutes/60, minutes%60)
		}
	}
	drawn := glyphsOf(text, 2)
	if widest(drawn) > width {
		drawn = glyphsOf(text, 1)
	}
	return drawn
}

// glyphsOf draws a text, so many characters to a cell.
func glyphsOf(text string, wide int) string {
	var rows [glyphRows]strings.Builder
	for _, r := range text {
		glyph, found := glyphs[r]
		if !found {
			continue
		}
		for i, row := range strings.Split(glyph, "/") {
			for _, cell := range row {
				rows[i].WriteString(strings.Repeat(string(map[rune]rune{'o': '█', '.': ' '}[cell]), wide))
			}
			rows[i].WriteString(strings.Repeat(" ", wide))
		}
	}
	var b strings.Builder
	for i := range rows {
		b.WriteString("  " + strings.TrimRight(rows[i].String(), " ") + "\n")
	}
	return b.String()
}

const glyphRows = 5

// glyphs are drawn row by row.
var glyphs = map[rune]string{
	'0': "ooo/o.o/o.o/o.o/ooo", '1': ".o/oo/.o/.o/.o", '2': "ooo/..o/ooo/o../ooo", '3': "ooo/..o/.oo/..o/ooo",
	'4': "o.o/o.o/ooo/..o/..o", '5': "ooo/o../ooo/..o/ooo", '6': "ooo/o../ooo/o.o/ooo", '7': "ooo/..o/.o./.o./.o.",
	'8': "ooo/o.o/ooo/o.o/ooo", '9': "ooo/o.o/ooo/..o/ooo",
	'h': "o../o../oo./o.o/o.o", 'd': "..o/..o/.oo/o.o/.oo", '+': ".../.o./ooo/.o./...",
	'm': "...../...../oo.o./o.o.o/o.o.o", 'i': "o/./o/o/o", 'n': ".../.../oo./o.o/o.o",
}
