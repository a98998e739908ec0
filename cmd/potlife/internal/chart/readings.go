package chart

import (
	"fmt"
	"strconv"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Reading is what was read of the bath, in the unit of the chart.
type Reading struct {
	At    time.Time
	Is    float64
	Doubt float64 // half of the length of its bar
	// Wrong marks one that no bath explains.
	Wrong bool
}

const (
	markRadius = 2.6
	barFoot    = 2.5 // half of the width of a bar's end
)

// Readings are black with a white middle: they stand on whatever is below them.
var (
	readingLine = draw.LineStyle{Color: black, Width: 1}
	markEdge    = draw.LineStyle{Color: black, Width: 1.2}
)

func (c Course) checkReadings() error {
	s := c.scale()
	for i, r := range c.Readings {
		if !(r.Is >= s.lowest) || !finite(r.Is) || !(r.Doubt >= 0) || !finite(r.Doubt) {
			return fmt.Errorf("chart: reading %d (%s) is %g ± %g %s; give a figure that can be read", i+1, clock(r.At), r.Is, r.Doubt, s.unit)
		}
		if !c.covers(r.At) {
			return fmt.Errorf("chart: reading %d (%s) is outside the charted time, %s to %s; extend the series or leave it out",
				i+1, clock(r.At), clock(c.start()), clock(c.end()))
		}
	}
	return nil
}

// drawReadings draws a circle and a bar for each reading, a cross for one that is wrong. One
// off the page is an arrow at its edge with the figure in words.
func drawReadings(f frame, c Course) {
	for _, r := range c.Readings {
		x, y := f.at(r.At), f.value(r.Is)
		if y > f.Max.Y || y < f.Min.Y {
			f.offPage(c, r, x, y > f.Max.Y)
			continue
		}
		low, high := max(f.value(r.Is-r.Doubt), f.Min.Y), min(f.value(r.Is+r.Doubt), f.Max.Y)
		f.StrokeLine2(readingLine, x, low, x, high)
		f.StrokeLine2(readingLine, x-barFoot, low, x+barFoot, low)
		f.StrokeLine2(readingLine, x-barFoot, high, x+barFoot, high)
		drawMark(f.Canvas, r.Wrong, vg.Point{X: x, Y: y})
	}
}

func drawMark(c draw.Canvas, wrong bool, at vg.Point) {
	if wrong {
		const arm = markRadius
		c.StrokeLine2(markEdge, at.X-arm, at.Y-arm, at.X+arm, at.Y+arm)
		c.StrokeLine2(markEdge, at.X-arm, at.Y+arm, at.X+arm, at.Y-arm)
		return
	}
	c.DrawGlyph(draw.GlyphStyle{Color: white, Radius: markRadius, Shape: draw.CircleGlyph{}}, at)
	c.DrawGlyph(draw.GlyphStyle{Color: black, Radius: markRadius - 0.6, Shape: draw.RingGlyph{}}, at)
}

// offPage marks a reading above or below the page.
func (f frame) offPage(c Course, r Reading, x vg.Length, above bool) {
	tip, foot := f.Min.Y+1, f.Min.Y+8
	if above {
		tip, foot = f.Max.Y-1, f.Max.Y-8
	}
	f.FillPolygon(black, []vg.Point{{X: x, Y: tip}, {X: x - 4, Y: foot}, {X: x + 4, Y: foot}})
	sty := sans(pourSize)
	sty.YAlign = draw.YCenter
	words, left, _ := f.offPageWords(c, r)
	f.FillText(sty, vg.Point{X: left, Y: (tip + foot) / 2}, words)
}

// offPageWords are those beside the arrow, and where they begin and end.
func (f frame) offPageWords(c Course, r Reading) (words string, left, right vg.Length) {
	const beside = 6
	words = "read " + strconv.FormatFloat(roundFigures(r.Is), 'f', -1, 64) + " " + c.scale().unit
	x, width := f.at(r.At), sans(pourSize).Width(words)
	left = x + beside
	if left+width > f.Max.X {
		left = x - beside - width
	}
	return words, left, left + width
}

// readAbove tells whether a reading at the limit or above it, or its words, stand between two
// places.
func (f frame) readAbove(c Course, left, right vg.Length) bool {
	for _, r := range c.Readings {
		if r.Is+r.Doubt < c.Limit {
			continue
		}
		from, to := f.at(r.At)-markRadius, f.at(r.At)+markRadius
		if f.value(r.Is) > f.Max.Y {
			_, begin, end := f.offPageWords(c, r)
			from, to = min(from, begin), max(to, end)
		}
		if from < right && to > left {
			return true
		}
	}
	return false
}

// readingEntries are the meanings of the marks that are there.
func readingEntries(c Course) []entry {
	var list []entry
	for _, kind := range []struct {
		wrong bool
		words string
	}{{false, "as read, with its doubt"}, {true, "read, and no bath explains it"}} {
		for _, r := range c.Readings {
			if r.Wrong == kind.wrong {
				list = append(list, entry{kind.words, markSample(kind.wrong)})
				break
			}
		}
	}
	return list
}

func markSample(wrong bool) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, r vg.Rectangle) {
		x := (r.Min.X + r.Max.X) / 2
		c.StrokeLine2(readingLine, x, r.Min.Y-1, x, r.Max.Y+1)
		drawMark(c, wrong, vg.Point{X: x, Y: (r.Min.Y + r.Max.Y) / 2})
	}
}
