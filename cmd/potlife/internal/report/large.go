package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"
)

// Alarm is how loud a display is to be.
type Alarm int

// The alarms, in order: the reserve is all that is surely left; nothing surely is; somebody may
// get hurt.
const (
	Calm Alarm = iota
	ReserveReached
	LifeOver
	Dangerous
)

// Words say what an alarm is; there are none for what needs none, and for a danger, which has its
// own.
func (a Alarm) Words() (text string) {
	defer shown("alarm", &text)
	switch a {
	case ReserveReached:
		return "Reserve reached"
	case LifeOver:
		return "Nothing is surely left"
	}
	return ""
}

// Alarm of the answer: what counts is what is surely left if the tow stops.
func (c *Check) Alarm() Alarm {
	switch {
	case len(c.Hazards) > 0:
		return Dangerous
	case c.Clocks != nil:
		return LifeOver // for all that is known
	case c.Bath == nil || c.Done:
		return Calm
	case c.Over() || c.StoppedSureS != nil && *c.StoppedSureS <= 0:
		return LifeOver
	case c.StoppedSureS != nil && *c.StoppedSureS <= c.ReserveS:
		return ReserveReached
	}
	return Calm
}

// Lead is what ends first, the working life if the tow stops or the resin that it draws; resin: it
// is the latter. A tow that stands draws none.
func (c *Check) Lead() (left *float64, resin bool) {
	if c.Running && c.ResinS != nil && (c.StoppedSureS == nil || *c.ResinS < *c.StoppedSureS) {
		return c.ResinS, true
	}
	return c.StoppedSureS, false
}

// Finished tells whether there is nothing more to watch.
func (c *Check) Finished() bool { return c.Done && len(c.Hazards) == 0 }

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
	head := folded(width, c.headline())
	answer := c.largeAnswer(width)
	foot := []string{"", "as of " + at.Format("15:04:05")}
	for _, text := range c.later {
		foot = append(foot, folded(width, "doubt: "+text)...)
	}
	if screen.Height > 0 {
		if len(head)+len(answer)+len(foot) >= screen.Height {
			empty := func(line string) bool { return line == "" }
			answer, foot = slices.DeleteFunc(answer, empty), slices.DeleteFunc(foot, empty)
		}
		if len(head)+len(answer) >= screen.Height {
			head = nil
		}
	}
	lines := slices.Concat(head, answer, foot)
	if screen.Height > 0 && len(lines) >= screen.Height {
		lines = lines[:screen.Height-1]
	}
	fmt.Fprintln(w, strings.Join(lines, "\n"))
}

// largeAnswer is what is left and what to do, as lines.
func (c *Check) largeAnswer(width int) []string {
	lines := []string{""}
	add := func(text string) { lines = append(lines, folded(width, text)...) }
	for _, text := range c.First {
		add(text)
	}
	counts := c.Bath != nil && len(c.Hazards) == 0 && !c.over() && c.Clocks == nil // beside a danger nobody asks for minutes
	switch {
	case c.Clocks != nil && len(c.Hazards) == 0:
		lines = append(lines, unknownLeft)
	case c.Bath == nil && len(c.Hazards) == 0:
		lines = append(lines, noResin)
	case counts:
		what := "surely left"
		lead, resin := c.Lead()
		switch {
		case resin:
			what = "of resin, until the bath is down to its lowest"
		case c.Running:
			what = "surely left, should the tow stop"
		}
		add(what)
		lines = append(lines, figures(lead, width)...)
	}
	switch alarm := c.Alarm(); {
	case c.Clocks != nil && alarm == LifeOver:
		lines = append(lines, "", "*** CLOCKS DIFFER ***")
	case alarm == ReserveReached:
		lines = append(lines, "", "*** THE RESERVE IS REACHED ***")
	case alarm == LifeOver:
		lines = append(lines, "", "*** NOTHING IS SURELY LEFT ***")
	}
	lines = append(lines, "")
	add(c.order().text())
	for _, text := range c.urgent {
		add("LOOK AGAIN: " + text + ".")
	}
	if next := c.next(); next != "" {
		add(nextHead + next)
	}
	if line := c.brokenPlan(); line != "" {
		add(line)
	}
	if counts {
		lines = append(lines, "", c.bar(width))
		add(c.likelyLine())
	}
	return lines
}

// folded is a text as lines of a width.
func folded(width int, text string) []string {
	return strings.Split(strings.TrimSuffix(foldTo(width, text, "", "  "), "\n"), "\n")
}

func (c *Check) likelyLine() string {
	end := c.ends()
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
func figures(s *float64, width int) []string {
	text := "2d+"
	if s != nil {
		minutes := int(math.Floor(math.Max(0, *s) / 60))
		text = fmt.Sprintf("%dmin", minutes)
		if minutes >= 100 {
			text = fmt.Sprintf("%dh%02d", minutes/60, minutes%60)
		}
	}
	drawn := glyphsOf(text, 2)
	if widest(strings.Join(drawn, "\n")) > width {
		drawn = glyphsOf(text, 1)
	}
	return drawn
}

// glyphsOf draws a text, so many characters to a cell.
func glyphsOf(text string, wide int) []string {
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
	lines := make([]string, len(rows))
	for i := range rows {
		lines[i] = "  " + strings.TrimRight(rows[i].String(), " ")
	}
	return lines
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
