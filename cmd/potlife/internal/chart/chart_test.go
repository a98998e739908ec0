package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"rsc.io/pdf"
)

func picture(t *testing.T, format string, c Course) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, format, c); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// svgTexts reads the SVG as XML, which also proves that it is well formed, and returns its
// texts.
func svgTexts(t *testing.T, svg []byte) []string {
	t.Helper()
	var texts []string
	in := false
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return texts
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			in = e.Name.Local == "text"
		case xml.EndElement:
			in = false
		case xml.CharData:
			if in {
				texts = append(texts, string(e))
			}
		}
	}
}

func counted(texts []string) map[string]int {
	n := map[string]int{}
	for _, s := range texts {
		n[s]++
	}
	return n
}

func TestSVGSaysItInWords(t *testing.T) {
	got := counted(svgTexts(t, picture(t, "svg", courses()["six layers"])))
	for _, want := range []string{
		"Telescope strut, six layers", "bath viscosity, mPa·s", "clock time",
		"likely (median)", "10 to 90 % of baths: 9 of 10 stay below the upper edge",
		"fill", "top-up", "change",
		"fill 204 g", "top-up 203 g", "top-up 202 g", "change 201 g",
		"09:00", "2026-11-28", "09:30", "12:00", "0", "1600",
		"6 layers", "1 helical 25°", "6 helical 25°",
	} {
		if got[want] != 1 {
			t.Errorf("%q stands %d times on the page, want once", want, got[want])
		}
	}
	if n := got["limit 1500 mPa·s"]; n != 2 {
		t.Errorf("the limit is named %d times, want in the legend and at its line", n)
	}
	if got["12:30"] != 0 {
		t.Error("a tick stands beyond the end of the course, 12:20")
	}
}

func TestLegendNamesOnlyWhatIsThere(t *testing.T) {
	got := counted(svgTexts(t, picture(t, "svg", courses()["no pours, layers"])))
	for _, word := range []string{"fill", "top-up", "change", "0 layers"} {
		if got[word] != 0 {
			t.Errorf("%q stands on a page without pours and layers", word)
		}
	}
}

func TestManyLayersAndPours(t *testing.T) {
	texts := svgTexts(t, picture(t, "svg", courses()["hundred layers"]))
	got := counted(texts)
	if got["120 layers"] != 1 {
		t.Error("the thin strip does not say how many layers it has")
	}
	pours := 0
	for _, s := range texts {
		if strings.Contains(s, "helical") {
			t.Errorf("layer name %q stands on a thin strip", s)
		}
		if strings.HasSuffix(s, " g") {
			pours++
		}
	}
	if pours != 40 {
		t.Errorf("%d of 40 pours are named", pours)
	}
	crowd := strings.Join(svgTexts(t, picture(t, "svg", courses()["two hundred"])), "\n")
	if !strings.Contains(crowd, "labels of pours left out for want of room") {
		t.Error("labels were left out and the legend does not say so")
	}
}

func TestPoursDifferInDash(t *testing.T) {
	svg := string(picture(t, "svg", courses()["six layers"]))
	for kind, want := range map[string]string{"top-up": "stroke-dasharray:1.5,2.5", "change": "stroke-dasharray:7,2,1.5,2", "limit": "stroke-dasharray:8,4"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no line of the page has the dashes of %s, %s", kind, want)
		}
	}
}

// TestGaps counts the pieces of the likely line: every emptied bath breaks it.
func TestGaps(t *testing.T) {
	svg := string(picture(t, "svg", courses()["six layers"]))
	pieces := strings.Count(svg, "stroke:#0072B2;stroke-width:2")
	if pieces != 4+1 { // four baths and the sample of the legend
		t.Errorf("the likely line has %d pieces, want 5", pieces)
	}
}

// TestGelledHighEdge checks that a band whose upper edge has gelled still shows, up to the
// top of the page, and that the SVG holds no number that is none.
func TestGelledHighEdge(t *testing.T) {
	c := courses()["one layer"]
	fill := fmt.Sprintf("fill-opacity:%.5g", float64(bandFill.A)/255)
	plain := strings.Count(string(picture(t, "svg", c)), fill)
	if plain != 1+1 { // the band and its sample in the legend
		t.Fatalf("the band has %d pieces with its sample, want 2", plain)
	}
	for i := range c.High {
		if i > 200 {
			c.High[i] = math.Inf(1)
		}
	}
	svg := string(picture(t, "svg", c))
	if n := strings.Count(svg, fill); n != plain {
		t.Errorf("the band has %d pieces, want %d", n, plain)
	}
	for _, bad := range []string{"NaN", "Inf"} {
		if strings.Contains(svg, bad) {
			t.Errorf("the SVG contains %s", bad)
		}
	}
}

// TestReproducible draws twice, so that a picture under version control changes only when
// the plan does; the format in capitals is the same one. Of the PNG, which takes longest to
// draw, the size is looked at here too.
func TestReproducible(t *testing.T) {
	for name, c := range courses() {
		for _, format := range []string{"svg", "png"} {
			first := picture(t, format, c)
			if !bytes.Equal(first, picture(t, strings.ToUpper(format), c)) {
				t.Errorf("%s: two renders as %s differ", name, format)
			}
			if format == "png" {
				sized(t, name, first)
			}
		}
	}
}

// sized wants 24 cm and 13 cm at 150 dots an inch of 2.54 cm, rounded.
func sized(t *testing.T, name string, drawn []byte) {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(drawn))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if b := img.Bounds(); b.Dx() != 1417 || b.Dy() != 768 {
		t.Errorf("%s: %d by %d dots, want 1417 by 768", name, b.Dx(), b.Dy())
	}
}

// TestPDF reads the PDF with an independent reader and looks for a character outside ASCII,
// which the library below would spell as two.
func TestPDF(t *testing.T) {
	raw := picture(t, "pdf", courses()["six layers"])
	if !bytes.HasPrefix(raw, []byte("%PDF-")) {
		t.Fatalf("starts with %q", raw[:8])
	}
	doc, err := pdf.NewReader(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		t.Fatal(err)
	}
	if doc.NumPage() != 1 {
		t.Errorf("%d pages, want one", doc.NumPage())
	}
	var all strings.Builder
	for _, s := range doc.Page(1).Content().Text {
		all.WriteString(s.S)
	}
	for _, want := range []string{"limit 1500 mPa·s", "top-up 203 g", "1 helical 25°"} {
		// The reader hands out glyphs, and a blank has none.
		if !strings.Contains(all.String(), strings.ReplaceAll(want, " ", "")) {
			t.Errorf("the PDF does not contain %q; it says %q", want, all.String())
		}
	}
}

// TestPDFBandColour looks for the band's own red, green and blue among the operators of the
// page: multiplied by opacity, as the library below would have it, they are half as bright.
func TestPDFBandColour(t *testing.T) {
	raw := picture(t, "pdf", courses()["six layers"])
	doc, err := pdf.NewReader(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		t.Fatal(err)
	}
	stream := doc.Page(1).V.Key("Contents").Reader()
	defer stream.Close()
	operators, err := io.ReadAll(stream)
	if err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("%.3f %.3f %.3f rg", float64(bandFill.R)/255, float64(bandFill.G)/255, float64(bandFill.B)/255)
	if !bytes.Contains(operators, []byte(want)) {
		t.Errorf("nothing is filled with %q", want)
	}
}

func TestHostileNames(t *testing.T) {
	c := courses()["six layers"]
	c.Title = "a <b> & \x00\x1b[31m \"c\"\r\nd \xff 纤维"
	c.Layers[0].Name = strings.Repeat("w", 5000)
	c.Layers[1].Name = "<&>\n\n\n"
	got := counted(svgTexts(t, picture(t, "svg", c)))
	if got[`a <b> & «U+0000»«U+001B»[31m "c"  d ? 纤维`] != 1 {
		t.Errorf("the title is not on the page as one printable line: %v", got)
	}
	if got["1"] != 1 {
		t.Error("a layer whose name has no room is not numbered")
	}
	picture(t, "png", c)
	picture(t, "pdf", c)
}

// failing refuses every write.
type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestWriteReports(t *testing.T) {
	if err := Write(failing{}, "svg", courses()["one layer"]); err == nil || !strings.Contains(err.Error(), "full") {
		t.Errorf("got %v, want the writer's error", err)
	}
	err := Write(io.Discard, "bmp", courses()["one layer"])
	if err == nil || !strings.Contains(err.Error(), "pdf, png, svg") {
		t.Errorf("got %v, want the formats", err)
	}
}

// TestZone checks that the page shows the clock of the first time's zone.
func TestZone(t *testing.T) {
	c := courses()["six layers"]
	zone := time.FixedZone("", 2*3600)
	c.At[0] = c.At[0].In(zone)
	got := counted(svgTexts(t, picture(t, "svg", c)))
	if got["11:00"] != 1 || got["14:00"] != 1 || got["09:00"] != 0 {
		t.Errorf("09:00 UTC is not shown as 11:00 two hours east: %v", got)
	}
}
