package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A column is from where to where the areas of plots that stand one above the other reach, so
// that a moment of one is above that of the other.
type column struct{ left, right vg.Length }

// columnOf is the widest that all plots can have on a sheet. What stands at their axes, the
// figures of a scale and half of the last clock time, takes its room from it.
func columnOf(sheet draw.Canvas, plots ...*plot.Plot) column {
	c := column{sheet.Min.X, sheet.Max.X}
	for _, p := range plots {
		area := p.DataCanvas(sheet)
		c.left, c.right = max(c.left, area.Min.X), min(c.right, area.Max.X)
	}
	return c
}

// turns are enough: what stands at the axes hardly depends on the width, so that each turn
// makes what is amiss ten times smaller or more.
const turns = 8

// inset crops a sheet so that the area of the plot fills the column.
func (c column) inset(sheet draw.Canvas, p *plot.Plot) draw.Canvas {
	for range turns {
		area := p.DataCanvas(sheet)
		sheet = draw.Crop(sheet, c.left-area.Min.X, c.right-area.Max.X, 0, 0)
	}
	return sheet
}

// column is the sheet on which the axes reach as far as those of the course beside.
func (c Course) column(sheet draw.Canvas, axes *plot.Plot) draw.Canvas {
	if c.Beside == nil {
		return sheet
	}
	return columnOf(sheet, axes, newAxes(*c.Beside)).inset(sheet, axes)
}
