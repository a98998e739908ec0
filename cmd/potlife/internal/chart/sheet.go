package chart

import (
	"bytes"
	"image/color"
	"io"
	"maps"
	"slices"

	"golang.org/x/text/encoding/charmap"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// dotsPerInch of a PNG: sharp on a screen, about 1400 dots wide.
const dotsPerInch = 150

// sheets draw a course in each format that is known.
var sheets = map[string]func(io.Writer, Course) error{
	"svg": writeSVG,
	"png": writePNG,
	"pdf": writePDF,
}

// formats are the keys of sheets, in the order in which an error names them.
func formats() []string { return slices.Sorted(maps.Keys(sheets)) }

func writePNG(w io.Writer, c Course) error {
	width, height := c.size()
	sheet := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dotsPerInch))}
	drawPage(draw.New(sheet), c)
	_, err := sheet.WriteTo(w)
	return err
}

// writeSVG names fonts that stand in for Liberation Sans, which few shop-floor machines
// have. Arial and Helvetica have the same widths, so labels stay where they were laid out.
func writeSVG(w io.Writer, c Course) error {
	sheet := vgsvg.New(c.size())
	drawPage(draw.New(sheet), c)
	var out bytes.Buffer
	if _, err := sheet.WriteTo(&out); err != nil {
		return err
	}
	_, err := w.Write(bytes.ReplaceAll(out.Bytes(),
		[]byte("font-family:Liberation Sans;"),
		[]byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")))
	return err
}

func writePDF(w io.Writer, c Course) error {
	width, height := c.size()
	sheet := vgpdf.New(width, height)
	drawPage(draw.NewCanvas(pdfSheet{sheet}, width, height), c)
	_, err := sheet.WriteTo(w)
	return err
}

// pdfSheet mends two habits of vgpdf v0.17: it hands text on as UTF-8 where its fonts are
// set up for code page 1252, and it takes colours already multiplied by their opacity for
// plain ones, which darkens whatever is translucent.
type pdfSheet struct{ *vgpdf.Canvas }

// FillString draws a text; a character that code page 1252 does not have becomes "?".
func (s pdfSheet) FillString(f font.Face, at vg.Point, text string) {
	encoded := make([]byte, 0, len(text))
	for _, r := range text {
		b, ok := charmap.Windows1252.EncodeRune(r)
		if !ok {
			b = '?'
		}
		encoded = append(encoded, b)
	}
	s.Canvas.FillString(f, at, string(encoded))
}

// SetColor sets the colour of what is drawn next.
func (s pdfSheet) SetColor(c color.Color) {
	s.Canvas.SetColor(straight(color.NRGBAModel.Convert(c).(color.NRGBA)))
}

// straight hands out red, green and blue without their opacity. That is not what RGBA
// promises elsewhere; it is what vgpdf needs.
type straight color.NRGBA

func (c straight) RGBA() (r, g, b, a uint32) {
	const widen = 0x101 // 8 to 16 bit
	return uint32(c.R) * widen, uint32(c.G) * widen, uint32(c.B) * widen, uint32(c.A) * widen
}
