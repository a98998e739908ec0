package chart

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawBand fills between the low and the high edge, one polygon for each stretch without a
// gap, and strokes both edges thinly: a pale fill alone gets lost on a worn printer.
func drawBand(f frame, c Course) {
	if !c.banded() {
		return
	}
	drawn := func(i int) bool { return finite(c.Low[i]) && !math.IsNaN(c.High[i]) }
	for _, s := range stretches(len(c.At), drawn) {
		high := f.points(c, c.High, s)
		low := f.points(c, c.Low, s)
		outline := append([]vg.Point{}, high...)
		for i := len(low) - 1; i >= 0; i-- {
			outline = append(outline, low[i])
		}
		f.FillPolygon(bandFill, f.ClipPolygonXY(outline))
		f.StrokeLines(bandLine, f.ClipLinesXY(high, low)...)
	}
}

// drawLikely draws the median, broken at gaps. A point alone between two gaps is a dot.
func drawLikely(f frame, c Course) {
	f.drawSeries(c, c.Likely, likelyLine)
}

// drawBefore draws what was likely before, below the rest.
func drawBefore(f frame, c Course) {
	if c.Before != nil {
		f.drawSeries(c, c.Before, beforeLine)
	}
}

func (f frame) drawSeries(c Course, values []float64, sty draw.LineStyle) {
	drawn := func(i int) bool { return finite(values[i]) }
	for _, s := range stretches(len(c.At), drawn) {
		line := f.points(c, values, s)
		if len(line) == 1 {
			f.DrawGlyph(draw.GlyphStyle{Color: sty.Color, Radius: 1.5, Shape: draw.CircleGlyph{}}, line[0])
			continue
		}
		f.StrokeLines(sty, f.ClipLinesXY(line)...)
	}
}

// stretch is a run of points from first to before end.
type stretch struct{ first, end int }

// stretches returns the runs of the n points that are drawn.
func stretches(n int, drawn func(int) bool) []stretch {
	var runs []stretch
	for i := 0; i < n; i++ {
		switch {
		case !drawn(i):
		case i > 0 && drawn(i-1):
			runs[len(runs)-1].end = i + 1
		default:
			runs = append(runs, stretch{i, i + 1})
		}
	}
	return runs
}

// points places a stretch of a series on the page. Values far above the page are brought
// down to where a line to them is still upright to the eye but its clipping does not
// overflow.
func (f frame) points(c Course, values []float64, s stretch) []vg.Point {
	far := 1000 * max(1, f.plot.Y.Max)
	pts := make([]vg.Point, 0, s.end-s.first)
	for i := s.first; i < s.end; i++ {
		pts = append(pts, vg.Point{X: f.at(c.At[i]), Y: f.value(min(values[i], far))})
	}
	return pts
}

func limitWords(c Course) string {
	return "limit " + strconv.FormatFloat(roundFigures(c.Limit), 'f', -1, 64) + " " + c.scale().unit
}

// drawLimit draws the limit and writes its words above it, at the rightmost place where
// they touch neither a pour, a reading nor the band; if there is none, at the right end.
func drawLimit(f frame, c Course) {
	if !c.showsLimit() {
		return // the legend says so
	}
	y := f.value(c.Limit)
	f.StrokeLine2(limitLine, f.Min.X, y, f.Max.X, y)

	words := limitWords(c)
	sty := sans(legendSize)
	width, height := sty.Width(words), sty.Height(words)
	const (
		margin = 4
		lift   = 3 // of the words above the line
	)
	left := f.Max.X - width - margin
	for x := left; x >= f.Min.X+margin; x -= margin {
		if !f.crowded(c, x-margin, x+width+margin) {
			left = x
			break
		}
	}
	box := vg.Rectangle{Min: vg.Point{X: left - 1, Y: y + lift - 1}, Max: vg.Point{X: left + width + 1, Y: y + lift + height}}
	f.SetColor(seeThru)
	f.Fill(box.Path())
	f.FillText(sty, vg.Point{X: left, Y: y + lift}, words)
}

// crowded says whether a pour, a reading, or the band above the limit lies between two places.
func (f frame) crowded(c Course, left, right vg.Length) bool {
	if f.readAbove(c, left, right) {
		return true
	}
	for _, p := range c.Pours {
		if x := f.at(p.At); x > left && x < right {
			return true
		}
	}
	for i := 1; i < len(c.At) && c.banded(); i++ {
		over := c.High[i] > c.Limit || c.High[i-1] > c.Limit
		if over && f.at(c.At[i]) > left && f.at(c.At[i-1]) < right {
			return true
		}
	}
	return false
}
