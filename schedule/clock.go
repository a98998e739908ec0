package schedule

import (
	"errors"
	"fmt"
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/document"
)

const startLayout = "2006-01-02 15:04"

// parseStart reads a local time and refuses one that the clock leaps over.
func parseStart(text string, zone *time.Location) (time.Time, error) {
	t, err := time.ParseInLocation(startLayout, text, zone)
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is not a date and a time", text)
	}
	if t.Format(startLayout) != text {
		return time.Time{}, fmt.Errorf("%s does not exist in this zone: the clock leaps over it", text)
	}
	return t, nil
}

// A Temperature is one for the whole job or a course through the day; the zero
// value is none.
type Temperature struct {
	constant quantity.Temperature
	points   []clockPoint
	series   vessel.Series
	settled  bool
}

type clockPoint struct {
	at string
	is quantity.Temperature
}

// Field describes the temperature as a key of a mapping: one temperature, or
// a list of {at: 09:00, is: 19 °C}.
func (t *Temperature) Field(name string, options ...document.Option) document.Field {
	return document.Union(name, []document.Field{
		document.Quantity("", &t.constant, document.Between(coldest, hottest)),
		document.List("", &t.points, func(p *clockPoint) document.Field {
			return document.Mapping("", []document.Field{
				document.Text("at", &p.at, document.Required(), document.Example("09:00")),
				document.Quantity("is", &p.is, document.Required(), document.Between(coldest, hottest), document.Example("19 °C")),
			})
		}),
	}, options...)
}

// settle turns clock times into elapsed seconds from start. A time of day that
// does not come after the one before it is on the next day.
func (t *Temperature) settle(start time.Time, zone *time.Location, fault func(i int, problem, mend string)) {
	if t.constant > 0 {
		t.series, t.settled = vessel.Constant(t.constant), true
		return
	}
	var at []quantity.Time
	var is []quantity.Temperature
	day, last := start, math.Inf(-1)
	for i, p := range t.points {
		clock, err := parseClock(p.at, day, zone)
		if err != nil {
			fault(i, err.Error(), "write a time of day like 09:00, or 2026-11-28 09:00")
			return
		}
		if elapsed := clock.Sub(start).Seconds(); elapsed <= last && len(p.at) <= len("15:04") {
			clock = time.Date(clock.Year(), clock.Month(), clock.Day()+1, clock.Hour(), clock.Minute(), 0, 0, zone)
		}
		elapsed := clock.Sub(start).Seconds()
		if elapsed <= last {
			fault(i, p.at+" does not come after the time before it", "give the times in order")
			return
		}
		day, last = clock, elapsed
		at, is = append(at, quantity.Time(elapsed)), append(is, p.is)
	}
	if len(at) == 0 {
		return
	}
	series, err := vessel.NewSeries(at, is)
	if err != nil {
		fault(0, err.Error(), "give times in order and temperatures above absolute zero")
		return
	}
	t.series, t.settled = series, true
}

func parseClock(text string, day time.Time, zone *time.Location) (time.Time, error) {
	if full, err := parseStart(text, zone); err == nil {
		return full, nil
	}
	clock, err := time.Parse("15:04", text)
	if err != nil {
		return time.Time{}, errors.New(text + " is not a time of day")
	}
	return time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, zone), nil
}

// Series is the temperature over elapsed seconds.
func (t *Temperature) Series() (series vessel.Series, known bool) { return t.series, t.settled }

// Clock returns the time of day at an elapsed time of the job.
func (j *Job) Clock(elapsed quantity.Time) time.Time {
	return j.Start.Add(time.Duration(math.Round(float64(elapsed) * float64(time.Second))))
}
