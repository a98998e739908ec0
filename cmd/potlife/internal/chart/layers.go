package chart

import (
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	stripGap   = 5 // above and below the strip
	thickStrip = layerSize + 6
	thinStrip  = 7
)

// strip is the row of layers between the curve and the clock.
type strip struct {
	height vg.Length // 0 without layers
	words  []string  // one for each layer, empty where none fits
}

// depth is what the strip takes between the curve and the clock.
func (s strip) depth() vg.Length {
	if s.height == 0 {
		return 0
	}
	return s.height + 2*stripGap
}

// newStrip chooses the words: names where they fit, if most do, and numbers elsewhere; a thin
// strip without words if not even most numbers fit.
func newStrip(f frame, layers []Layer) strip {
	if len(layers) == 0 {
		return strip{}
	}
	names := make([]string, len(layers))
	numbers := make([]string, len(layers))
	fitNames, fitNumbers := 0, 0
	for i, l := range layers {
		room := f.at(l.End) - f.at(l.Start) - 4
		if number := strconv.Itoa(i + 1); sans(layerSize).Width(number) <= room {
			numbers[i] = number
			fitNumbers++
		}
		names[i] = numbers[i]
		if name := printable(l.Name); name != "" && sans(layerSize).Width(name) <= room {
			names[i] = name
			fitNames++
		}
	}
	switch {
	case 2*fitNames > len(layers):
		return strip{height: thickStrip, words: names}
	case 2*fitNumbers > len(layers):
		return strip{height: thickStrip, words: numbers}
	}
	return strip{height: thinStrip, words: make([]string, len(layers))}
}

func (s strip) draw(f frame, layers []Layer) {
	if len(layers) == 0 {
		return
	}
	top := f.Min.Y - stripGap
	middle := top - s.height/2
	sty := sans(layerSize)
	sty.XAlign, sty.YAlign = draw.XCenter, draw.YCenter
	edges := draw.LineStyle{Color: stripEdge, Width: 0.4}
	for i, l := range layers {
		box := vg.Rectangle{
			Min: vg.Point{X: f.at(l.Start), Y: top - s.height},
			Max: vg.Point{X: f.at(l.End), Y: top},
		}
		if i%2 == 0 {
			f.SetColor(darkStrip)
		} else {
			f.SetColor(paleStrip)
		}
		f.Fill(box.Path())
		if s.height == thickStrip {
			f.SetLineStyle(edges)
			f.Stroke(box.Path())
		}
		if s.words[i] != "" {
			f.FillText(sty, vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: middle + sty.FontExtents().Descent/2}, s.words[i])
		}
	}
	caption := sans(layerSize)
	caption.XAlign, caption.YAlign = draw.XRight, draw.YCenter
	f.FillText(caption, vg.Point{X: f.Min.X - 5, Y: middle + caption.FontExtents().Descent/2}, countLayers(len(layers)))
}

func countLayers(n int) string {
	if n == 1 {
		return "1 layer"
	}
	return strconv.Itoa(n) + " layers"
}
