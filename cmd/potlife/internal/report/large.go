package report

import (
	"fmt"
	"io"
	"math"
	"strings"

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
	case c.Bath == nil || c.Layer == "":
		return Calm
	case c.Over() || c.StoppedSureS != nil && *c.StoppedSureS <= 0:
		return LifeOver
	case c.StoppedSureS != nil && *c.StoppedSureS <= c.ReserveS:
		return ReserveReached
	}
	return Calm
}

// Finished tells whether there is nothing more to watch.
func (c *Check) Finished() bool { return c.finish }

// Large writes the answer to be read from a few steps away: the time that is surely left in
// large figures, the advice, and little else.
func (c *Check) Large(w io.Writer) {
	fmt.Fprint(w, fold(c.headline(), "", ""))
	fmt.Fprintln(w)
	switch {
	case c.Bath == nil:
		fmt.Fprintln(w, "There is no resin in the bath.")
	default:
		fmt.Fprintln(w, "surely left")
		fmt.Fprintln(w)
		fmt.Fprint(w, figures(c.LeftSureS))
		fmt.Fprintln(w)
		fmt.Fprintln(w, c.bar())
		fmt.Fprint(w, fold(c.likelyLine(), "", ""))
	}
	switch c.Alarm() {
	case ReserveReached:
		fmt.Fprintln(w, "\n*** THE RESERVE IS REACHED ***")
	case LifeOver:
		fmt.Fprintln(w, "\n*** NOTHING IS SURELY LEFT ***")
	}
	fmt.Fprintln(w)
	fmt.Fprint(w, fold(c.order(), "", "  "))
	if len(c.Warnings) > 0 {
		fmt.Fprintln(w)
		for _, warning := range c.Warnings {
			fmt.Fprint(w, fold("doubt: "+warning, "", "  "))
		}
	}
}

func (c *Check) likelyLine() string {
	end := c.Limits.words(vessel.Limit(c.EndsBy))
	if c.LeftS != nil && *c.LeftS <= 0 {
		return "likely nothing: " + end
	}
	return fmt.Sprintf("likely %s; then %s", span(c.LeftS), end)
}

// barWidth is how many characters the bar of what is left has.
const barWidth = 60

// bar shows what is surely left, the reserve within it, on a scale of the life that it is a
// part of.
func (c *Check) bar() string {
	left, whole := 0.0, c.answer.Bath.Age
	if c.LeftSureS == nil {
		return "[" + strings.Repeat("=", barWidth) + "]"
	}
	left = math.Max(0, *c.LeftSureS)
	scale := barWidth / math.Max(1, float64(whole)+left)
	n := int(math.Round(left * scale))
	reserve := min(n, int(math.Round(c.ReserveS*scale)))
	return "[" + strings.Repeat("#", reserve) + strings.Repeat("=", n-reserve) + strings.Repeat(" ", barWidth-n) + "]  # reserve"
}

// figures draws a time left in large digits, rounded down.
func figures(s *float64) string {
	text := "2d+"
	if s != nil {
		minutes := int(math.Floor(math.Max(0, *s) / 60))
		text = fmt.Sprintf("%dmin", minutes)
		if minutes >= 100 {
			text = fmt.Sprintf("%dh%02d", minutes/60, minutes%60)
		}
	}
	var rows [glyphRows]strings.Builder
	for _, r := range text {
		glyph, found := glyphs[r]
		if !found {
			continue
		}
		for i, row := range strings.Split(glyph, "/") {
			// A character of a terminal is twice as high as wide.
			for _, cell := range row {
				rows[i].WriteString(strings.Repeat(string(map[rune]rune{'o': '█', '.': ' '}[cell]), 2))
			}
			rows[i].WriteString("  ")
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
