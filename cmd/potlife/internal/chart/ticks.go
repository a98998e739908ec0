package chart

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"gonum.org/v1/plot"
)

// mostTicks leaves each tick of the time axis room for a date below it.
const mostTicks = 10

// clockSteps are the distances of ticks that a person reads off a clock without counting.
var clockSteps = []time.Duration{
	time.Second, 2 * time.Second, 5 * time.Second, 10 * time.Second, 15 * time.Second, 30 * time.Second,
	time.Minute, 2 * time.Minute, 5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute,
	time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour,
	24 * time.Hour, 48 * time.Hour, 96 * time.Hour,
}

// clockTick is a mark of the time axis.
type clockTick struct {
	at    time.Time
	label string
}

// clockStep is the smallest step that needs no more than most ticks for a span.
func clockStep(span time.Duration, most int) time.Duration {
	for _, step := range clockSteps {
		if int(span/step)+1 <= most {
			return step
		}
	}
	return clockSteps[len(clockSteps)-1]
}

// timeTicks are those of the time axis.
func (c Course) timeTicks() []clockTick {
	if c.Elapsed {
		return elapsedTicks(c.start(), c.end(), mostTicks)
	}
	return clockTicks(c.start(), c.end(), mostTicks)
}

// elapsedTicks returns the ticks from start to end, in round hours and minutes after start.
func elapsedTicks(start, end time.Time, most int) []clockTick {
	step := clockStep(end.Sub(start), most)
	var ticks []clockTick
	for t := time.Duration(0); t <= end.Sub(start); t += step {
		label := fmt.Sprintf("%d:%02d", int(t.Hours()), int(t.Minutes())%60)
		if step < time.Minute {
			label += fmt.Sprintf(":%02d", int(t.Seconds())%60)
		}
		ticks = append(ticks, clockTick{at: start.Add(t), label: label})
	}
	return ticks
}

// clockTicks returns the ticks from start to end at round times of the clock in the zone of
// start. The first tick, and the first of each later day, carries the date on a second line.
//
// When the clocks are set, an hour that comes twice is marked twice and one that is left out
// is not marked.
func clockTicks(start, end time.Time, most int) []clockTick {
	step := clockStep(end.Sub(start), most)
	// Clocks are set by multiples of 15 minutes, so this grain stays aligned across it.
	grain := min(step, 15*time.Minute)
	layout := "15:04"
	if step < time.Minute {
		layout = "15:04:05"
	}
	var ticks []clockTick
	day := ""
	first := start.Truncate(time.Second)
	first = first.Add(-time.Duration(wallSeconds(first)%int64(grain/time.Second)) * time.Second)
	for t := first; !t.After(end); t = t.Add(grain) {
		if t.Before(start) || wallSeconds(t)%int64(step/time.Second) != 0 {
			continue
		}
		label := t.Format(layout)
		if d := t.Format(time.DateOnly); d != day {
			label, day = label+"\n"+d, d
		}
		ticks = append(ticks, clockTick{at: t, label: label})
	}
	return ticks
}

// wallSeconds counts the seconds that the clock on the wall shows, from 1970-01-01 00:00 on
// that clock, so that a round time divides without remainder in any zone. It is positive for
// any year after that; Go's remainder of a negative count is still zero at round times.
func wallSeconds(t time.Time) int64 {
	y, m, d := t.Date()
	return time.Date(y, m, d, t.Hour(), t.Minute(), t.Second(), 0, time.UTC).Unix()
}

// valueTicks returns the ticks from bottom, or the first round figure above it, to top: 1, 2
// or 5 times a power of ten apart, four to ten of them.
func valueTicks(bottom, top float64) []plot.Tick {
	span := top - bottom
	decade := math.Pow(10, math.Floor(math.Log10(span/4)))
	step := decade
	for _, of := range []float64{2, 5} {
		if of*decade <= span/4 {
			step = of * decade
		}
	}
	var ticks []plot.Tick
	for i := int(math.Ceil(bottom/step - 1e-9)); float64(i)*step <= top; i++ {
		ticks = append(ticks, plot.Tick{
			Value: float64(i) * step,
			// Six figures hide the rounding of step and never need more.
			Label: strconv.FormatFloat(roundFigures(float64(i)*step), 'f', -1, 64),
		})
	}
	return ticks
}

// roundFigures rounds to six figures.
func roundFigures(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil {
		return v
	}
	return r
}
