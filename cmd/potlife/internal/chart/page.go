package chart

import (
	"strings"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes of text in points, and the white edge of the page.
const (
	titleSize  = 13
	labelSize  = 10
	tickSize   = 9
	legendSize = 8.5
	pourSize   = 7.5
	layerSize  = 8

	edge = 12
)

// frame is the area of the curve on the page, with its scales.
type frame struct {
	draw.Canvas
	plot  *plot.Plot
	start time.Time
}

func (f frame) at(t time.Time) vg.Length {
	return f.X(f.plot.X.Norm(t.Sub(f.start).Seconds()))
}

func (f frame) value(v float64) vg.Length { return f.Y(f.plot.Y.Norm(v)) }

// drawPage draws the whole page: from the top the title, the legend, the labels of the
// pours, the curve, the layers and the clock.
func drawPage(paper draw.Canvas, c Course) {
	paper.SetColor(white)
	paper.Fill(paper.Path())
	sheet := draw.Crop(paper, edge, -edge, edge, -edge)

	// The width of the curve does not depend on what stands above it, so labels can be laid
	// out before it is known how much height they take.
	axes := newAxes(c)
	inset := c.column(sheet, axes)
	area := frame{Canvas: axes.DataCanvas(inset), plot: axes, start: c.start()}
	strip := newStrip(area, c.Layers)
	axes.X.Padding = strip.depth()
	labels := layOutPours(area, sheet.Max.X, c.Pours)
	key := newLegend(c, labels.leftOut, sheet.Max.X-area.Min.X)

	top := drawTitle(sheet, area.Min.X, c.Title)
	top = key.draw(sheet, area.Min.X, top)
	body := draw.Crop(inset, 0, 0, 0, top-labels.height-sheet.Max.Y)
	axes.Draw(body)

	area.Canvas = axes.DataCanvas(body)
	drawGrid(area)
	drawBand(area, c)
	drawBefore(area, c)
	drawPours(area, labels)
	drawLimit(area, c)
	drawLikely(area, c)
	drawReadings(area, c)
	strip.draw(area, c.Layers)
}

// newAxes returns the axes of the chart. Limits are set last, as adding anything to a plot
// moves them.
func newAxes(c Course) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.X.Label.Text, p.Y.Label.Text = "clock time", c.scale().axis
	if c.Elapsed { // of a test, not of a bath
		p.X.Label.Text, p.Y.Label.Text = "time, h:min", c.scale().name+", "+c.scale().unit
	}
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Label.TextStyle = restyled(a.Label.TextStyle, labelSize)
		a.Tick.Label = restyled(a.Tick.Label, tickSize)
		a.Label.Padding = 3
		a.Tick.Length = 4
		a.Padding = 0
	}
	var ticks plot.ConstantTicks
	for _, t := range c.timeTicks() {
		ticks = append(ticks, plot.Tick{Value: t.at.Sub(c.start()).Seconds(), Label: twoLines(t.label)})
	}
	p.X.Tick.Marker = ticks
	p.Y.Min, p.Y.Max = c.bounds()
	p.Y.Tick.Marker = plot.ConstantTicks(valueTicks(p.Y.Min, p.Y.Max))
	p.X.Min, p.X.Max = 0, c.end().Sub(c.start()).Seconds()
	return p
}

// twoLines gives a label without a date an empty second line: gonum sets labels of one and
// of two lines on different heights.
func twoLines(label string) string {
	if strings.Contains(label, "\n") {
		return label
	}
	return label + "\n "
}

// restyled is a style of the library in our font; its alignment is kept.
func restyled(sty text.Style, size vg.Length) text.Style {
	sty.Font = sans(size).Font
	return sty
}

// drawTitle returns the height below which the page is still free.
func drawTitle(sheet draw.Canvas, left vg.Length, title string) vg.Length {
	title = printable(title)
	if title == "" {
		return sheet.Max.Y
	}
	sty := sans(titleSize)
	sty.YAlign = draw.YTop
	sheet.FillText(sty, vg.Point{X: left, Y: sheet.Max.Y}, shorten(sty, title, sheet.Max.X-left))
	return sheet.Max.Y - sty.Height(title) - 5
}

func drawGrid(f frame) {
	for _, t := range f.plot.Y.Tick.Marker.Ticks(f.plot.Y.Min, f.plot.Y.Max) {
		if y := f.value(t.Value); t.Value > f.plot.Y.Min {
			f.StrokeLine2(gridLine, f.Min.X, y, f.Max.X, y)
		}
	}
}
