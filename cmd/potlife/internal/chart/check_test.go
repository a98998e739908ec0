package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"
)

func fill(n int, v float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = v
	}
	return s
}

// TestOddInput spoils a good course in one way at a time and looks for the words that tell
// what to mend.
func TestOddInput(t *testing.T) {
	rows := []struct {
		want  string
		spoil func(*Course)
	}{
		{"no times", func(c *Course) { *c = Course{} }},
		{"one time only", func(c *Course) { c.At = c.At[:1] }},
		{"must ascend", func(c *Course) { c.At[3] = c.At[2].Add(-time.Second) }},
		{"span 0s", func(c *Course) {
			for i := range c.At {
				c.At[i] = nine
			}
			c.Pours, c.Layers = nil, nil
		}},
		{"more than 31; check the dates", func(c *Course) { c.At[len(c.At)-1] = nine.AddDate(2, 0, 0) }},
		{"viscosity limit is 0", func(c *Course) { c.Limit = 0 }},
		{"viscosity limit is NaN", func(c *Course) { c.Limit = math.NaN() }},
		{"viscosity limit is +Inf", func(c *Course) { c.Limit = math.Inf(1) }},
		{"likely series has 0 values", func(c *Course) { c.Likely = nil }},
		{"low series has", func(c *Course) { c.Low = c.Low[1:] }},
		{"high series has 0 values", func(c *Course) { c.High = nil }},
		{"likely series has no finite", func(c *Course) { c.Likely = fill(len(c.At), math.NaN()) }},
		{"high series has no finite", func(c *Course) { c.High = fill(len(c.At), math.Inf(1)) }},
		{"never negative", func(c *Course) { c.Likely[5] = -1 }},
		{"never negative", func(c *Course) { c.Low[5] = math.Inf(-1) }},
		{"swapped", func(c *Course) { c.Low, c.High = c.High, c.Low }},
		{`kind "splash"`, func(c *Course) { c.Pours[1].Kind = "splash" }},
		{"mass of NaN", func(c *Course) { c.Pours[1].Grams = math.NaN() }},
		{"mass of +Inf", func(c *Course) { c.Pours[1].Grams = math.Inf(1) }},
		{"mass of 1e+09", func(c *Course) { c.Pours[1].Grams = 1e9 }},
		{"mass of -3", func(c *Course) { c.Pours[1].Grams = -3 }},
		{"pour 1 (fill, 2026-11-28 08:00:00) is outside", func(c *Course) { c.Pours[0].At = nine.Add(-time.Hour) }},
		{"before it starts", func(c *Course) { c.Layers[2].End = c.Layers[2].Start.Add(-time.Minute) }},
		{"layer 6", func(c *Course) { c.Layers[5].End = c.Layers[5].End.Add(time.Hour) }},
	}
	for _, r := range rows {
		c := courses()["six layers"]
		r.spoil(&c)
		for _, format := range formats() {
			var out bytes.Buffer
			err := Write(&out, format, c)
			if err == nil || !strings.Contains(err.Error(), r.want) {
				t.Errorf("%s: got %v, want %q", format, err, r.want)
			}
			if out.Len() > 0 {
				t.Errorf("%s: %q wrote %d bytes all the same", format, r.want, out.Len())
			}
		}
	}
}

// TestBareMinimum draws what is just enough, at both ends of every range.
func TestBareMinimum(t *testing.T) {
	for _, c := range []Course{
		{At: []time.Time{nine, nine.Add(shortest)}, Limit: lowestLimit},
		{At: []time.Time{nine, nine.Add(longest)}, Limit: highestLimit},
		{At: []time.Time{{}, time.Time{}.Add(time.Hour)}, Limit: 1500},
	} {
		c.Likely = []float64{math.NaN(), math.MaxFloat64}
		c.Low = []float64{0, 0}
		c.High = []float64{math.MaxFloat64, math.Inf(1)}
		c.Pours = []Pour{{At: c.At[1], Kind: "fill"}, {At: c.At[1], Kind: "change", Grams: heaviest}}
		c.Layers = []Layer{{Start: c.At[0], End: c.At[0]}, {Start: c.At[0], End: c.At[1]}}
		for _, format := range formats() {
			out := picture(t, format, c)
			if format == "svg" && (bytes.Contains(out, []byte("NaN")) || bytes.Contains(out, []byte("Inf"))) {
				t.Error("the SVG contains a number that is none")
			}
		}
	}
}
