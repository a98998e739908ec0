package chart

import (
	"bytes"
	"math"
	"testing"
	"time"
)

// cup is a cup test: no band, no limit, a curve of before and readings, of invented figures.
func cup() Course {
	c := Course{Measure: Temperature, Elapsed: true, Title: "A cup", LikelyWords: "fitted", BeforeWords: "before it was"}
	var mixed time.Time
	for i := range 61 {
		at := mixed.Add(time.Duration(i) * 90 * time.Second)
		c.At = append(c.At, at)
		c.Likely = append(c.Likely, 22+2*math.Exp(float64(i)/15))
		c.Before = append(c.Before, 22+300*float64(i)/60) // runs off the page
		if i%10 == 0 {
			c.Readings = append(c.Readings, Reading{At: at, Is: c.Likely[i] + 0.3, Doubt: 0.5})
		}
	}
	return c
}

// TestCup: a cup test is drawn without band and limit, its clock counts from mixing, and the
// page ends where likely and readings do, not where the curve of before does.
func TestCup(t *testing.T) {
	c := cup()
	if bottom, top := c.bounds(); !(bottom == 20 && top > 131 && top < 140) {
		t.Errorf("the page is from %g to %g", bottom, top)
	}
	var out bytes.Buffer
	if err := Write(&out, "svg", c); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{">fitted<", ">before it was<", ">0:00<", ">1:30<", ">time, h:min<", ">temperature, °C<", "as read, with its doubt"} {
		if !bytes.Contains(out.Bytes(), []byte(word)) {
			t.Errorf("the picture lacks %s", word)
		}
	}
	for _, word := range []string{"0001", "limit", "of baths", "clock"} {
		if bytes.Contains(out.Bytes(), []byte(word)) {
			t.Errorf("the picture says %s", word)
		}
	}
	for _, format := range formats() {
		if err := Write(&bytes.Buffer{}, format, c); err != nil {
			t.Errorf("%s: %v", format, err)
		}
	}
	c.Before = c.Before[1:]
	if err := c.check(); err == nil {
		t.Error("a curve of before with a point missing is drawn")
	}
	c = cup()
	c.Measure = Viscosity
	if err := c.check(); err == nil {
		t.Error("a page of viscosities without a limit is drawn")
	}
}

// TestElapsedTicks: ticks are round and count on beyond a day; the seconds show where they
// are needed.
func TestElapsedTicks(t *testing.T) {
	var start time.Time
	for _, c := range []struct {
		span        time.Duration
		first, last string
	}{
		{30 * time.Hour, "0:00", "30:00"}, {88 * time.Minute, "0:00", "1:20"}, {50 * time.Second, "0:00:00", "0:00:50"},
	} {
		ticks := elapsedTicks(start, start.Add(c.span), mostTicks)
		if got := ticks[len(ticks)-1].label; ticks[0].label != c.first || got != c.last || len(ticks) > mostTicks {
			t.Errorf("%v: %d ticks from %s to %s, want %s to %s", c.span, len(ticks), ticks[0].label, got, c.first, c.last)
		}
	}
}
