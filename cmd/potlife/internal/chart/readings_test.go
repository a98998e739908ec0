package chart

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "potlife/kinetics/testrun" // fixes rapid's seed
)

// warming is an invented day of the other measure, with readings: one that fits, one that is
// wrong, one above the page and one far below the bath.
func warming() Course {
	c := growing("Bath of an invented day", nine, 3*time.Hour+20*time.Minute, 4, 6)
	c.Measure, c.Limit, c.Page = Temperature, 35, Page{WidthMM: 180, HeightMM: 90}
	for i := range c.At {
		c.Likely[i] = 21 + 4*math.Log(c.Likely[i]/420)
		c.Low[i], c.High[i] = c.Likely[i]-0.5, c.Likely[i]+0.9
	}
	for i, is := range []float64{21.4, 30, 55, 12} {
		c.Readings = append(c.Readings, Reading{At: nine.Add(time.Duration(30*i+10) * time.Minute), Is: is, Doubt: 0.5, Wrong: i > 0})
	}
	return c
}

func TestTemperatureChartSaysItInWords(t *testing.T) {
	got := counted(svgTexts(t, picture(t, "svg", warming())))
	for _, want := range []string{
		"bath temperature, °C", "as read, with its doubt", "read, and no bath explains it", "read 55 °C", "10", "35",
	} {
		if got[want] != 1 {
			t.Errorf("%q stands %d times on the page, want once", want, got[want])
		}
	}
	if n := got["limit 35 °C"]; n != 2 {
		t.Errorf("the limit is named %d times, want in the legend and at its line", n)
	}
	if got["read 12 °C"] != 0 || got["bath viscosity, mPa·s"] != 0 {
		t.Error("a reading that is on the page is marked as off it, or the axis is the other one")
	}
	far := warming()
	far.Limit, far.Readings = 60, nil
	if got := counted(svgTexts(t, picture(t, "svg", far))); got["(limit 60 °C, above this page)"] != 1 || got["limit 60 °C"] != 0 || got["60"] != 0 {
		t.Error("a limit far above the bath is not said to be off the page")
	}
	plain := counted(svgTexts(t, picture(t, "svg", courses()["six layers"])))
	if plain["as read, with its doubt"] != 0 {
		t.Error("the legend of a plan speaks of readings")
	}
}

func TestPageHasItsSize(t *testing.T) {
	svg := string(picture(t, "svg", warming()))
	// 180 mm × 90 mm in points of 1/72 inch, to the four digits that are written.
	if head := svg[:min(len(svg), 400)]; !strings.Contains(head, `width="510.24pt"`) || !strings.Contains(head, `height="255.12pt"`) {
		t.Errorf("the page begins with %s", head)
	}
}

func TestReadingsThatCannotBeDrawn(t *testing.T) {
	for words, r := range map[string]Reading{
		"can be read":     {At: nine.Add(time.Minute), Is: math.NaN()},
		"± NaN":           {At: nine.Add(time.Minute), Is: 20, Doubt: math.NaN()},
		"± -1":            {At: nine.Add(time.Minute), Is: 20, Doubt: -1},
		"-300":            {At: nine.Add(time.Minute), Is: -300},
		"outside the cha": {At: nine.Add(-time.Minute), Is: 20},
	} {
		c := warming()
		c.Readings = []Reading{r}
		err := Write(&strings.Builder{}, "svg", c)
		if err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%+v: got %v, want %q", r, err, words)
		}
	}
}

// TestTemperatureAxisHoldsTheBath draws days of any warmth: the limit and every reading that
// is not above the limit are on the page.
func TestTemperatureAxisHoldsTheBath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := warming()
		c.Limit = rapid.Float64Range(5, 60).Draw(t, "limit")
		for i := range c.Readings {
			c.Readings[i].Is = rapid.Float64Range(-10, 90).Draw(t, "reading")
		}
		bottom, top := c.bounds()
		if !(bottom < c.Limit && bottom+leastSpan/2 < top) || c.showsLimit() != (c.Limit < top) {
			t.Fatalf("from %g to %g with a limit of %g, shown: %v", bottom, top, c.Limit, c.showsLimit())
		}
		for _, r := range c.Readings {
			if r.Is <= c.Limit && !(r.Is-r.Doubt > bottom && r.Is < top) {
				t.Fatalf("the reading %g is not on the page from %g to %g", r.Is, bottom, top)
			}
		}
		if ticks := valueTicks(bottom, top); len(ticks) < 4 || len(ticks) > 11 || ticks[0].Value < bottom {
			t.Fatalf("%d ticks from %v between %g and %g", len(ticks), ticks, bottom, top)
		}
	})
}

// TestLimitIsNamedClearOfReadings moves a reading off the page along the day: the words at the
// limit and those of the reading never overlap.
func TestLimitIsNamedClearOfReadings(t *testing.T) {
	place := regexp.MustCompile(`x="([0-9.]+)" y="(-[0-9.]+)"[^>]*>(limit 32 °C|read 55 °C)<`)
	for minute := 0; minute <= 200; minute += 10 {
		c := warming()
		c.Pours, c.Limit = nil, 32
		c.Readings = []Reading{{At: nine.Add(time.Duration(minute) * time.Minute), Is: 55, Doubt: 0.5}}
		at := map[string]float64{}
		for _, m := range place.FindAllStringSubmatch(string(picture(t, "svg", c)), -1) {
			x, err := strconv.ParseFloat(m[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			at[m[3]] = x // of the two limits the last, at its line
		}
		limit, read := at["limit 32 °C"], at["read 55 °C"]
		limitEnd := limit + sans(legendSize).Width("limit 32 °C").Points()
		readEnd := read + sans(pourSize).Width("read 55 °C").Points()
		if len(at) != 2 || !(limitEnd <= read || readEnd <= limit) {
			t.Errorf("minute %d: limit from %.0f to %.0f, reading from %.0f to %.0f", minute, limit, limitEnd, read, readEnd)
		}
	}
}

// TestShowDay keeps a picture to be looked at where POTLIFE_CHARTS names a folder.
func TestShowDay(t *testing.T) {
	folder := os.Getenv("POTLIFE_CHARTS")
	if folder == "" {
		t.Skip("POTLIFE_CHARTS names no folder")
	}
	if err := saved(filepath.Join(folder, "warming.png"), warming()); err != nil {
		t.Fatal(err)
	}
}
