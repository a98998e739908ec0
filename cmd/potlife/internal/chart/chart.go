// Package chart draws the bath of a plan or of a day, or a cup test: its viscosity or its temperature
// over time, with its doubt, its limit, what was read, the pours and the layers, as SVG,
// PNG or PDF.
//
// What it does not do: it computes nothing of the resin. It takes series that were computed
// elsewhere and leaves them as they are; only what is above the top of the page is cut off.
//
// # How it stays readable
//
// No meaning rests on colour alone. Lines differ in dash and lightness, pours carry words,
// readings are marks, and colours are those of
//
//	M. Okabe, K. Ito, Color Universal Design: how to make figures and presentations that
//	are friendly to colorblind people, 2008, https://jfly.uni-koeln.de/color/
//
// Labels of pours stand above the curve. Few of them lie flat; when flat ones would touch
// one another they stand upright, fanned out; when even those have no room, some are left
// out, and the legend says how many.
//
// SVG and PNG bytes are reproducible. PDF carries its time of making.
package chart

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Course is what a chart shows, in the unit of its measure.
type Course struct {
	Measure Measure

	// Page is the size of the picture; none: that of a plan, half of an A4 sheet on its side.
	Page Page

	// Title stands at the top; one that is too long is cut with an ellipsis. May be empty.
	Title string

	// At are the times of the three series, ascending; two points may share one time (a step
	// at a pour). The zone of the first is the zone of the clock on the page.
	At []time.Time

	// Elapsed makes the clock count hours and minutes from the first time.
	Elapsed bool

	// Likely is the median of the ensemble, Low and High its 10 % and 90 % quantiles. NaN is
	// a gap (the bath is empty) and so is +Inf (it has gelled); but where Low is finite and
	// High is +Inf the band runs off the top of the page, because one bath in ten has gelled.
	// Low and High are both nil where there is no band.
	Likely, Low, High []float64

	// Before is what Likely was before something was learned; nil: nothing. What of it is
	// beside the page is cut off.
	Before []float64

	// LikelyWords and BeforeWords stand in the legend; none: those of a bath.
	LikelyWords, BeforeWords string

	// Limit is that of the bath. A page of viscosities ends at 1.25 times this; one of
	// temperatures may end below it, and 0 is none.
	Limit float64

	Readings []Reading

	Pours  []Pour
	Layers []Layer

	// Beside is a course of the same times that stands above or below: an hour of both is at
	// the same place. Nil: none.
	Beside *Course
}

// Pour is resin put into the bath.
type Pour struct {
	At    time.Time
	Kind  string // "fill", "top-up" or "change"
	Grams float64
	Cups  int // that it is mixed in, alike; 0 is 1
}

// Layer is one layer's time on the machine.
type Layer struct {
	Name       string
	Start, End time.Time
}

// Page is the size of a picture.
type Page struct{ WidthMM, HeightMM float64 }

// The page of a plan: wide enough for a working day, and half of an A4 sheet on its side.
const (
	pageWidth  = 24 * vg.Centimeter
	pageHeight = 13 * vg.Centimeter
)

// size of the picture.
func (c Course) size() (width, height vg.Length) {
	if c.Page == (Page{}) {
		return pageWidth, pageHeight
	}
	return vg.Length(c.Page.WidthMM) * vg.Millimeter, vg.Length(c.Page.HeightMM) * vg.Millimeter
}

// Write draws the course to w; format is svg, png or pdf, in any case. It draws into memory
// first: w sees a whole picture or, if the course cannot be drawn, nothing.
func Write(w io.Writer, format string, c Course) error {
	picture, err := render(format, c)
	if err != nil {
		return err
	}
	if _, err := w.Write(picture); err != nil {
		return fmt.Errorf("chart: write %s: %w", format, err)
	}
	return nil
}

// A drawing is what can be put on a page.
type drawing interface {
	check() error
	size() (width, height vg.Length)
	draw(paper draw.Canvas)
}

func (c Course) draw(paper draw.Canvas) { drawPage(paper, c) }

// render returns the bytes of the picture.
func render(format string, c drawing) ([]byte, error) {
	sheet, ok := sheets[strings.ToLower(format)]
	if !ok {
		return nil, fmt.Errorf("chart: unknown format %q; take one of %s", format, strings.Join(formats(), ", "))
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := sheet(&out, c); err != nil {
		return nil, fmt.Errorf("chart: draw %s: %w", format, err)
	}
	return out.Bytes(), nil
}
