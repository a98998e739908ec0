package chart

import (
	"cmp"
	"fmt"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	sampleWidth = 22
	legendRow   = legendSize + 5
	sampleGap   = 4  // sample to words
	entryGap    = 11 // entry to entry
)

// legend says in words what each line means, in rows above the curve.
type legend struct{ rows [][]entry }

// entry is a sample of a line or area, and what it means. A note has no sample.
type entry struct {
	words  string
	sample func(c draw.Canvas, r vg.Rectangle)
}

func (e entry) width() vg.Length {
	w := sans(legendSize).Width(e.words) + entryGap
	if e.sample != nil {
		w += sampleWidth + sampleGap
	}
	return w
}

// newLegend lays the entries out in rows no wider than room.
func newLegend(c Course, leftOut int, room vg.Length) legend {
	var l legend
	var used vg.Length
	for _, e := range entries(c, leftOut) {
		if len(l.rows) == 0 || used+e.width()-entryGap > room {
			l.rows = append(l.rows, nil)
			used = 0
		}
		last := len(l.rows) - 1
		l.rows[last] = append(l.rows[last], e)
		used += e.width()
	}
	return l
}

// entries lists the meanings. The band holds eight baths of ten at any one time, since one
// of ten is above it and one below; what matters to the crew is its upper edge.
func entries(c Course, leftOut int) []entry {
	list := []entry{{cmp.Or(c.LikelyWords, "likely (median)"), lineSample(likelyLine)}}
	if c.banded() {
		list = append(list, entry{"10 to 90 % of baths: 9 of 10 stay below the upper edge", bandSample})
	}
	if c.Before != nil {
		list = append(list, entry{cmp.Or(c.BeforeWords, "before"), lineSample(beforeLine)})
	}
	switch {
	case !c.limited():
	case c.showsLimit():
		list = append(list, entry{limitWords(c), lineSample(limitLine)})
	default:
		list = append(list, entry{"(" + limitWords(c) + ", above this page)", nil})
	}
	list = append(list, readingEntries(c)...)
	for _, kind := range pourKinds {
		if slices.ContainsFunc(c.Pours, func(p Pour) bool { return p.Kind == kind }) {
			list = append(list, entry{kind, lineSample(pourLine(kind))})
		}
	}
	if leftOut > 0 {
		list = append(list, entry{fmt.Sprintf("(%d labels of pours left out for want of room)", leftOut), nil})
	}
	return list
}

func lineSample(sty draw.LineStyle) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, r vg.Rectangle) {
		y := (r.Min.Y + r.Max.Y) / 2
		c.StrokeLine2(sty, r.Min.X, y, r.Max.X, y)
	}
}

func bandSample(c draw.Canvas, r vg.Rectangle) {
	c.SetColor(bandFill)
	c.Fill(r.Path())
	c.SetLineStyle(bandLine)
	c.StrokeLine2(bandLine, r.Min.X, r.Min.Y, r.Max.X, r.Min.Y)
	c.StrokeLine2(bandLine, r.Min.X, r.Max.Y, r.Max.X, r.Max.Y)
}

// draw draws the legend below top and returns the height below which the page is free.
func (l legend) draw(sheet draw.Canvas, left, top vg.Length) vg.Length {
	sty := sans(legendSize)
	sty.YAlign = draw.YCenter
	for _, row := range l.rows {
		x := left
		middle := top - legendRow/2
		for _, e := range row {
			text := x
			if e.sample != nil {
				e.sample(sheet, vg.Rectangle{
					Min: vg.Point{X: x, Y: middle - 3.5},
					Max: vg.Point{X: x + sampleWidth, Y: middle + 3.5},
				})
				text += sampleWidth + sampleGap
			}
			sheet.FillText(sty, vg.Point{X: text, Y: middle + sty.FontExtents().Descent/2}, e.words)
			x += e.width()
		}
		top -= legendRow
	}
	return top - 4
}
