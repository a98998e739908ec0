package chart

import (
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	flatRows   = 3 // more rows of flat labels than this are harder to read than upright ones
	flatRow    = pourSize + 3
	labelGap   = 3 // between a mark and its flat label, and between two labels
	upright    = pourSize + 1.5
	leaderRise = 12 // from the curve to the foot of an upright label
)

// pourMark is a pour with its place, and the place of its label.
type pourMark struct {
	Pour
	words string
	x     vg.Length // of the pour
	left  vg.Length // left end of a flat label, middle of an upright one
	row   int       // of a flat label, from the curve up
	named bool
}

// pourLabels are all pours laid out above the curve.
type pourLabels struct {
	marks   []pourMark
	flat    bool
	height  vg.Length // what they take above the curve
	leftOut int       // labels without room
}

func (p Pour) words() string {
	decimals := 0
	if p.Grams < 10 {
		decimals = 1
	}
	cups := max(p.Cups, 1)
	grams := strconv.FormatFloat(p.Grams/float64(cups), 'f', decimals, 64) + " g"
	if cups > 1 {
		grams = strconv.Itoa(cups) + " × " + grams
	}
	return p.Kind + " " + grams
}

// layOutPours lays labels out between the left end of the curve and right.
func layOutPours(f frame, right vg.Length, pours []Pour) pourLabels {
	marks := make([]pourMark, len(pours))
	for i, p := range pours {
		marks[i] = pourMark{Pour: p, words: p.words(), x: f.at(p.At), named: true}
	}
	slices.SortStableFunc(marks, func(a, b pourMark) int { return a.At.Compare(b.At) })
	if len(marks) == 0 {
		return pourLabels{flat: true, height: 4}
	}
	if flat, ok := layFlat(marks, f.Min.X, right); ok {
		return flat
	}
	return standUpright(marks, f.Min.X, right)
}

// layFlat seeks for each label, from the last to the first, the lowest row and side of its
// mark where it touches no other label or mark. It is false if one finds none.
func layFlat(marks []pourMark, left, right vg.Length) (pourLabels, bool) {
	placed := slices.Clone(marks)
	sty := sans(pourSize)
	rows := 0
	for i := len(placed) - 1; i >= 0; i-- {
		m := &placed[i]
		width := sty.Width(m.words)
		found := false
	rows:
		for m.row = 0; m.row < flatRows; m.row++ {
			for _, m.left = range []vg.Length{m.x + labelGap, m.x - labelGap - width} {
				if m.left >= left && m.left+width <= right && !touches(*m, placed[i+1:]) {
					found = true
					break rows
				}
			}
		}
		if !found {
			return pourLabels{}, false
		}
		rows = max(rows, m.row+1)
	}
	return pourLabels{marks: placed, flat: true, height: vg.Length(rows)*flatRow + 3}, true
}

// touches says whether a flat label overlaps one of the others, or crosses or is crossed by
// a mark, which rises as high as its own label.
func touches(m pourMark, others []pourMark) bool {
	sty := sans(pourSize)
	mEnd := m.left + sty.Width(m.words)
	for _, o := range others {
		oEnd := o.left + sty.Width(o.words)
		switch {
		case m.row == o.row && m.left < oEnd+labelGap && o.left < mEnd+labelGap:
			return true
		case o.row >= m.row && o.x > m.left-1 && o.x < mEnd+1:
			return true
		case m.row >= o.row && m.x > o.left-1 && m.x < oEnd+1:
			return true
		}
	}
	return false
}

// standUpright turns the labels by a quarter and fans them out. If they are too many, they
// are thinned out evenly.
func standUpright(marks []pourMark, left, right vg.Length) pourLabels {
	out := pourLabels{marks: slices.Clone(marks)}
	room := int((right - left) / upright)
	every := (len(marks) + room - 1) / room
	var named []*pourMark
	var tallest vg.Length
	for i := range out.marks {
		m := &out.marks[i]
		if m.named = i%every == 0; !m.named {
			out.leftOut++
			continue
		}
		named = append(named, m)
		tallest = max(tallest, sans(pourSize).Width(m.words))
	}
	spread(named, left+upright/2, right-upright/2)
	out.height = tallest + leaderRise + 4
	return out
}

// spread sets the labels at their marks and pushes them apart: first to the right, then
// back from the right end.
func spread(named []*pourMark, first, last vg.Length) {
	free := first
	for _, m := range named {
		m.left = max(m.x, free)
		free = m.left + upright
	}
	free = last
	for _, m := range slices.Backward(named) {
		m.left = min(m.left, free)
		free = m.left - upright
	}
}

// drawPours draws the marks through the curve and their labels above it.
func drawPours(f frame, labels pourLabels) {
	for _, m := range labels.marks {
		sty := pourLine(m.Kind)
		if labels.flat {
			y := f.Max.Y + vg.Length(m.row)*flatRow
			f.StrokeLine2(sty, m.x, f.Min.Y, m.x, y+flatRow)
			f.FillText(sans(pourSize), vg.Point{X: m.left, Y: y + 2}, m.words)
			continue
		}
		f.StrokeLine2(sty, m.x, f.Min.Y, m.x, f.Max.Y)
		if !m.named {
			continue
		}
		leader := draw.LineStyle{Color: vermillion, Width: 0.5}
		f.StrokeLines(leader, []vg.Point{
			{X: m.x, Y: f.Max.Y},
			{X: m.x, Y: f.Max.Y + 2},
			{X: m.left, Y: f.Max.Y + leaderRise - 2},
		})
		turned := sans(pourSize)
		turned.Rotation = math.Pi / 2
		turned.YAlign = draw.YCenter
		f.FillText(turned, vg.Point{X: m.left, Y: f.Max.Y + leaderRise}, m.words)
	}
}
