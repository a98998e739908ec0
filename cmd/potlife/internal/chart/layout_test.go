package chart

import (
	"cmp"
	"image/color"
	"math"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
	"pgregory.net/rapid"
)

// TestPourLabelsNeverCollide scatters pours at random, in clusters too, and checks that no
// label overlaps another, is crossed by a mark, or leaves the page.
func TestPourLabelsNeverCollide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := growing("", nine, 4*time.Hour, 1, 0)
		c.Pours = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Pour {
			return Pour{
				At:    nine.Add(time.Duration(rapid.IntRange(0, 240).Draw(t, "minute")) * time.Minute),
				Kind:  rapid.SampledFrom(pourKinds).Draw(t, "kind"),
				Grams: rapid.Float64Range(0, 5000).Draw(t, "grams"),
			}
		}), 0, 90).Draw(t, "pours")
		axes := newAxes(c)
		paper := draw.NewCanvas(&recorder.Canvas{}, pageWidth, pageHeight)
		f := frame{Canvas: axes.DataCanvas(draw.Crop(paper, edge, -edge, edge, -edge)), plot: axes, start: nine}
		right := pageWidth - edge
		got := layOutPours(f, right, c.Pours)
		if len(got.marks) != len(c.Pours) {
			t.Fatalf("%d marks for %d pours", len(got.marks), len(c.Pours))
		}
		if got.height > pageHeight/4 {
			t.Fatalf("labels take %v of a page of %v", got.height, pageHeight)
		}
		if got.flat {
			flatApart(t, got.marks, f.Min.X, right)
		} else {
			uprightApart(t, got, f.Min.X, right)
		}
	})
}

func flatApart(t *rapid.T, marks []pourMark, left, right vg.Length) {
	for i, m := range marks {
		end := m.left + sans(pourSize).Width(m.words)
		if m.left < left || end > right {
			t.Fatalf("%q leaves the page", m.words)
		}
		for j, o := range marks {
			oEnd := o.left + sans(pourSize).Width(o.words)
			if i != j && m.row == o.row && m.left < oEnd && o.left < end {
				t.Fatalf("%q at %v overlaps %q at %v", m.words, m.left, o.words, o.left)
			}
			if o.row >= m.row && o.x > m.left && o.x < end {
				t.Fatalf("the mark of %q crosses %q", o.words, m.words)
			}
		}
	}
}

func uprightApart(t *rapid.T, labels pourLabels, left, right vg.Length) {
	named := slices.DeleteFunc(slices.Clone(labels.marks), func(m pourMark) bool { return !m.named })
	if len(named)+labels.leftOut != len(labels.marks) {
		t.Fatalf("%d named and %d left out of %d", len(named), labels.leftOut, len(labels.marks))
	}
	if !slices.IsSortedFunc(named, func(a, b pourMark) int { return cmp.Compare(a.left, b.left) }) {
		t.Fatal("leaders cross")
	}
	const rounding = 1e-6 // of a point; sums of a hundred lengths near 600
	for i, m := range named {
		if m.left-upright/2 < left-rounding || m.left+upright/2 > right+rounding {
			t.Fatalf("%q leaves the page", m.words)
		}
		if i > 0 && m.left-named[i-1].left < upright-rounding {
			t.Fatalf("%q and %q overlap", named[i-1].words, m.words)
		}
	}
}

// lightness is L* of CIE 15:2004, from sRGB (IEC 61966-2-1), for a colour on white paper.
func lightness(c color.NRGBA) float64 {
	opacity := float64(c.A) / 255
	linear := func(v uint8) float64 {
		s := 1 - opacity + opacity*float64(v)/255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	y := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}

// TestBlackAndWhite checks that limit, likely course, band and paper stay apart without
// colour. A just noticeable difference is about 2.3 in L* (memory); 15 is several of them
// and still leaves the band pale.
func TestBlackAndWhite(t *testing.T) {
	inOrder := []color.NRGBA{black, blue, bandFill, white}
	const apart = 15
	for i := 1; i < len(inOrder); i++ {
		if d := lightness(inOrder[i]) - lightness(inOrder[i-1]); !(d >= apart) {
			t.Errorf("colours %d and %d differ by %.1f in lightness, want %d", i-1, i, d, apart)
		}
	}
}
