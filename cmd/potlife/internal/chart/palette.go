package chart

import (
	"image/color"
	"strings"
	"unicode"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"potlife/resins/document/visible"
)

// Colours of Okabe and Ito (see the package comment), and greys.
var (
	black      = color.NRGBA{A: 255}
	blue       = color.NRGBA{R: 0x00, G: 0x72, B: 0xB2, A: 255}
	skyBlue    = color.NRGBA{R: 0x56, G: 0xB4, B: 0xE9, A: 255}
	vermillion = color.NRGBA{R: 0xD5, G: 0x5E, B: 0x00, A: 255}

	white     = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	gridGrey  = color.NRGBA{R: 0xE4, G: 0xE4, B: 0xE4, A: 255}
	darkStrip = color.NRGBA{R: 0xC8, G: 0xC8, B: 0xC8, A: 255}
	paleStrip = color.NRGBA{R: 0xF2, G: 0xF2, B: 0xF2, A: 255}
	stripEdge = color.NRGBA{R: 0x70, G: 0x70, B: 0x70, A: 255}
	seeThru   = color.NRGBA{R: 255, G: 255, B: 255, A: 215}
	bandFill  = color.NRGBA{R: skyBlue.R, G: skyBlue.G, B: skyBlue.B, A: 128}
)

// The lines. In black and white the limit is black and dashed, the likely course grey and
// solid, the band pale; pours stand upright, thin.
var (
	likelyLine = draw.LineStyle{Color: blue, Width: 2}
	beforeLine = draw.LineStyle{Color: stripEdge, Width: 1.3, Dashes: []vg.Length{5, 2, 1.5, 2}}
	bandLine   = draw.LineStyle{Color: skyBlue, Width: 0.5}
	limitLine  = draw.LineStyle{Color: black, Width: 1.4, Dashes: []vg.Length{8, 4}}
	gridLine   = draw.LineStyle{Color: gridGrey, Width: 0.5}
)

// pourKinds in the order of the legend.
var pourKinds = []string{"fill", "top-up", "change"}

// pourDashes tells the kinds of pour apart: a fill is solid, a top-up dotted, a change
// dash-dotted.
var pourDashes = map[string][]vg.Length{
	"fill":   nil,
	"top-up": {1.5, 2.5},
	"change": {7, 2, 1.5, 2},
}

func pourLine(kind string) draw.LineStyle {
	return draw.LineStyle{Color: vermillion, Width: 1.1, Dashes: pourDashes[kind]}
}

// sans is the text style of everything on the page.
func sans(size vg.Length) text.Style {
	return text.Style{
		Color:   black,
		Font:    font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, size),
		Handler: plot.DefaultTextHandler,
	}
}

// printable makes a person's text fit for one line of any format: control characters break
// XML, and a line break would run into what stands below.
func printable(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	return strings.TrimSpace(visible.Text(s))
}

// shorten cuts a text with an ellipsis so that it is no wider than room.
func shorten(sty text.Style, s string, room vg.Length) string {
	if sty.Width(s) <= room {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		if cut := strings.TrimSpace(string(runes[:n])) + "…"; sty.Width(cut) <= room {
			return cut
		}
	}
	return ""
}
