package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"
)

// baked is a cure of a day in steps of ten minutes.
func baked() Cure {
	c := Cure{Title: "Strut", Limit: 110, Target: 0.9}
	for i := range 60 {
		x := float64(i) / 59
		c.At = append(c.At, nine.Add(time.Duration(i)*10*time.Minute))
		c.Air, c.Hottest = append(c.Air, 23+60*x), append(c.Hottest, 22+60*x)
		c.Coldest, c.Glass = append(c.Coldest, 20+60*x), append(c.Glass, -30+120*x)
		c.Degree = append(c.Degree, x)
	}
	return c
}

// TestCureIsDrawn: in each format, with every meaning in words; SVG twice alike.
func TestCureIsDrawn(t *testing.T) {
	for _, format := range formats() {
		picture, err := render(format, baked())
		if err != nil || len(picture) < 1000 {
			t.Fatalf("%s: %d bytes, %v", format, len(picture), err)
		}
		if format != "svg" {
			continue
		}
		for _, l := range baked().lines() {
			if words := strings.ReplaceAll(l.words, "'", "&#39;"); !bytes.Contains(picture, []byte(words)) && !bytes.Contains(picture, []byte(l.words)) {
				t.Errorf("the picture does not say %q", l.words)
			}
		}
		for _, words := range []string{"degree of cure", "clock time", "what no place may pass"} {
			if !bytes.Contains(picture, []byte(words)) {
				t.Errorf("the picture does not say %q", words)
			}
		}
		again, err := render(format, baked())
		if err != nil || !bytes.Equal(again, picture) {
			t.Errorf("drawn twice, two pictures: %v", err)
		}
	}
}

// TestCureRefused: what cannot be drawn is refused with the place.
func TestCureRefused(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Cure)
		says  string
	}{
		"short":  {func(c *Cure) { c.Glass = c.Glass[1:] }, "the glass series has 59 values for 60 times"},
		"gap":    {func(c *Cure) { c.Hottest[3] = math.NaN() }, "the hottest at"},
		"cold":   {func(c *Cure) { c.Air[3] = -400 }, "the air at"},
		"moment": {func(c *Cure) { c.At = c.At[:1] }, "at least two"},
	} {
		b := baked()
		c.spoil(&b)
		if _, err := render("svg", b); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v does not say %q", name, err, c.says)
		}
	}
}

// TestNoFigureAboveSmoke: a page never shows how far above 200 °C a place would be.
func TestNoFigureAboveSmoke(t *testing.T) {
	c := baked()
	c.Hottest[30] = 400
	if top := c.heatAxes().Y.Max; !(top <= hottestShown) {
		t.Errorf("the page ends at %g °C", top)
	}
}
