package chart

import (
	"fmt"
	"math"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"potlife/cmd/potlife/internal/whole"
	"potlife/kinetics/quantity"
)

// Cure is a part from its last layer to the end of its oven: temperatures in °C above,
// the degree of cure below, over clock time.
type Cure struct {
	Title string

	// At are the times of all series, ascending.
	At []time.Time

	Air, Hottest, Coldest, Glass []float64 // °C; Glass is that of the laziest place
	Degree                       []float64 // 0 to 1, of the laziest place

	Limit  float64 // °C that no place may pass; NaN: none
	Target float64 // degree of cure asked for; NaN: none
}

// SaveCure is [Save] for a cure.
func SaveCure(to whole.Target, c Cure) error { return save(to, c) }

func (c Cure) size() (width, height vg.Length) { return pageWidth, pageHeight * 1.25 }

// cureLine is a series with its line and its meaning. None rests on colour alone: they
// differ in dash and width.
type cureLine struct {
	name, words string
	values      []float64
	style       draw.LineStyle
}

func (c Cure) lines() []cureLine {
	return []cureLine{
		{"air", "oven's air", c.Air, draw.LineStyle{Color: black, Width: 0.9}},
		{"hottest", "hottest place", c.Hottest, draw.LineStyle{Color: vermillion, Width: 2}},
		{"coldest", "coldest place", c.Coldest, draw.LineStyle{Color: blue, Width: 1.4, Dashes: []vg.Length{6, 2}}},
		{"glass", "glass temperature of the laziest place", c.Glass, draw.LineStyle{Color: skyBlue, Width: 2, Dashes: []vg.Length{1.5, 2.5}}},
	}
}

// check says what is missing or impossible, and nil if it can be drawn.
func (c Cure) check() error {
	if err := (Course{At: c.At}).checkTimes(); err != nil {
		return err
	}
	for _, l := range append(c.lines(), cureLine{name: "degree of cure", values: c.Degree}) {
		if len(l.values) != len(c.At) {
			return fmt.Errorf("chart: the %s series has %d values for %d times; give one for each", l.name, len(l.values), len(c.At))
		}
		for i, v := range l.values {
			if !finite(v) || v < quantity.Temperature(0).Celsius() || v > 2000 {
				return fmt.Errorf("chart: the %s at %s is %g; give a figure that can be", l.name, clock(c.At[i]), v)
			}
		}
	}
	return nil
}

// draw draws the page: from the top the title, the legend, the temperatures, the degree of
// cure and the clock.
func (c Cure) draw(paper draw.Canvas) {
	paper.SetColor(white)
	paper.Fill(paper.Path())
	sheet := draw.Crop(paper, edge, -edge, edge, -edge)
	heat, cured := c.heatAxes(), c.degreeAxes()
	both := columnOf(sheet, heat, cured)

	top := drawTitle(sheet, both.left, c.Title)
	top = rowsOf(c.entries(), sheet.Max.X-both.left).draw(sheet, both.left, top)
	upper, lower := panels(sheet, both, heat, cured, top)
	heat.Draw(upper)
	cured.Draw(lower)

	f := frame{Canvas: heat.DataCanvas(upper), plot: heat, start: c.At[0]}
	drawGrid(f)
	if finite(c.Limit) && c.Limit <= heat.Y.Max {
		f.StrokeLine2(limitLine, f.Min.X, f.value(c.Limit), f.Max.X, f.value(c.Limit))
	}
	for _, l := range c.lines() {
		f.trace(c.At, l.values, l.style)
	}
	d := frame{Canvas: cured.DataCanvas(lower), plot: cured, start: c.At[0]}
	drawGrid(d)
	if finite(c.Target) {
		d.StrokeLine2(limitLine, d.Min.X, d.value(c.Target), d.Max.X, d.value(c.Target))
	}
	d.trace(c.At, c.Degree, likelyLine)
}

// panels are the canvases of both plots below a height, one above the other.
func panels(sheet draw.Canvas, both column, heat, cured *plot.Plot, top vg.Length) (upper, lower draw.Canvas) {
	const degreeShare = 0.27
	split := sheet.Min.Y + degreeShare*(top-sheet.Min.Y)
	upper = both.inset(draw.Crop(sheet, 0, 0, split-sheet.Min.Y+8, top-sheet.Max.Y), heat)
	lower = both.inset(draw.Crop(sheet, 0, 0, 0, split-sheet.Max.Y), cured)
	return upper, lower
}

// trace draws a series that has no gaps.
func (f frame) trace(at []time.Time, values []float64, style draw.LineStyle) {
	pts := make([]vg.Point, len(at))
	for i := range at {
		pts[i] = vg.Point{X: f.at(at[i]), Y: f.value(values[i])}
	}
	f.StrokeLines(style, f.ClipLinesXY(pts)...)
}

func (c Cure) entries() []entry {
	var list []entry
	for _, l := range c.lines() {
		list = append(list, entry{l.words, lineSample(l.style)})
	}
	if finite(c.Limit) || finite(c.Target) {
		list = append(list, entry{"what no place may pass (above), what is asked (below)", lineSample(limitLine)})
	}
	return list
}

// heatAxes hold every temperature, and the limit where it is not far above.
func (c Cure) heatAxes() *plot.Plot {
	low, high := c.Air[0], c.Air[0]
	for _, l := range c.lines() {
		for _, v := range l.values {
			high = max(high, v)
			if l.name != "glass" { // a fresh resin's is far below any room
				low = min(low, v)
			}
		}
	}
	if finite(c.Limit) && c.Limit < high+30 {
		high = max(high, c.Limit)
	}
	p := c.axes("°C", grain*math.Floor((low-1)/grain), min(high+4, hottestShown))
	p.X.Tick.Marker = hiddenLabels(p)
	return p
}

// hottestShown ends the page where there is only smoke and fire: no figure above is to be
// believed.
const hottestShown = 204

// degreeAxes run from nothing to all.
func (c Cure) degreeAxes() *plot.Plot {
	p := c.axes("degree of cure", 0, 1.04)
	p.X.Label.Text = "clock time"
	return p
}

func (c Cure) axes(label string, bottom, top float64) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	p.Y.Label.Text = label
	end := c.At[len(c.At)-1].In(c.At[0].Location())
	var ticks plot.ConstantTicks
	for _, t := range clockTicks(c.At[0], end, mostTicks) {
		ticks = append(ticks, plot.Tick{Value: t.at.Sub(c.At[0]).Seconds(), Label: twoLines(t.label)})
	}
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Label.TextStyle = restyled(a.Label.TextStyle, labelSize)
		a.Tick.Label = restyled(a.Tick.Label, tickSize)
		a.Label.Padding, a.Tick.Length, a.Padding = 3, 4, 0
	}
	p.X.Tick.Marker = ticks
	p.Y.Min, p.Y.Max = bottom, top
	p.Y.Tick.Marker = plot.ConstantTicks(valueTicks(bottom, top))
	p.X.Min, p.X.Max = 0, end.Sub(c.At[0]).Seconds()
	return p
}

// hiddenLabels are the ticks of the clock without its figures, which stand below.
func hiddenLabels(p *plot.Plot) plot.ConstantTicks {
	var bare plot.ConstantTicks
	for _, t := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
		bare = append(bare, plot.Tick{Value: t.Value, Label: " "})
	}
	return bare
}
