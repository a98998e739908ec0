package chart

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// placed are the places across the page of each text of an SVG that begins with a word.
func placed(t *testing.T, svg []byte, word string) (across []float64) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	x := 0.0
	for {
		token, err := d.Token()
		if err != nil {
			return across
		}
		switch e := token.(type) {
		case xml.StartElement:
			for _, a := range e.Attr {
				if e.Name.Local == "text" && a.Name.Local == "x" {
					if x, err = strconv.ParseFloat(a.Value, 64); err != nil {
						t.Fatal(err)
					}
				}
			}
		case xml.CharData:
			if strings.HasPrefix(string(e), word) {
				across = append(across, x)
			}
		}
	}
}

// aligned is how far two places may differ: what is printed of a place, and far less than a
// line is wide.
const aligned = 0.01 // points

// TestCoursesBesideLineUp: of two charts of a day, whose scales need more or less room, an hour
// is at the same place; without that they are out of line.
func TestCoursesBesideLineUp(t *testing.T) {
	thick := growing("", nine, 8*time.Hour, 4, 6)
	warm := growing("", nine, 8*time.Hour, 4, 6)
	warm.Measure, warm.Limit = Temperature, 60
	for i := range warm.At {
		warm.Likely[i], warm.Low[i], warm.High[i] = 25, 24, 26
	}
	apart := func(a, b Course) float64 {
		worst := 0.0
		for _, hour := range []string{"09:00", "17:00"} {
			p, q := placed(t, picture(t, "svg", a), hour), placed(t, picture(t, "svg", b), hour)
			if len(p) != 1 || len(q) != 1 {
				t.Fatalf("%s stands at %v and %v", hour, p, q)
			}
			worst = max(worst, math.Abs(p[0]-q[0]))
		}
		return worst
	}
	if d := apart(thick, warm); !(d > 1) {
		t.Errorf("alone, hours differ by %g points only: this test cannot fail", d)
	}
	a, b := thick, warm
	a.Beside, b.Beside = &warm, &thick
	if d := apart(a, b); !(d <= aligned) {
		t.Errorf("an hour of one is %g points beside that of the other", d)
	}
}

// TestCurePanelsLineUp: the panels of a cure have the same hours above one another, whatever
// their scales need.
func TestCurePanelsLineUp(t *testing.T) {
	hot := baked()
	for i := range hot.Air {
		hot.Air[i] += 60
	}
	for _, c := range []Cure{baked(), hot} {
		width, height := c.size()
		sheet := draw.NewCanvas(&recorder.Canvas{}, width, height)
		heat, cured := c.heatAxes(), c.degreeAxes()
		above, below := panels(sheet, columnOf(sheet, heat, cured), heat, cured, height-3*edge)
		upper, lower := heat.DataCanvas(above), cured.DataCanvas(below)
		for _, d := range []vg.Length{upper.Min.X - lower.Min.X, upper.Max.X - lower.Max.X} {
			if !(math.Abs(float64(d)) <= aligned) {
				t.Errorf("the panels are %v points out of line", d)
			}
		}
	}
}
