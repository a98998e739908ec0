package schedule

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"
	_ "time/tzdata" // zones by name on machines that have no table of them

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins/document"
)

const startLayout = "2006-01-02 15:04"

// Patterns of what that layout reads, and of a time of day with or without a date.
const (
	dayPattern   = `[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01]) +`
	timePattern  = `(?:[01]?[0-9]|2[0-3]):[0-5][0-9]`
	startPattern = `^` + dayPattern + timePattern + `( ?[+-](?:0[0-9]|1[0-4]):?[0-5][0-9])?$`
	clockPattern = `^(?:` + dayPattern + `)?` + timePattern + `$`
)

// parseStart reads a local time, with an offset where the clock shows it twice, and refuses one
// that the clock leaps over. Its error is a [*quantity.Error].
func parseStart(text string, zone *time.Location) (time.Time, error) {
	wall, mark := unmarked(text)
	wanted, err := time.Parse(startLayout, wall)
	if err != nil {
		return time.Time{}, &quantity.Error{
			Text: text, Named: true, Problem: text + " is not a date and a time", Mend: "write it like this: 2026-11-28 09:00",
		}
	}
	if !inReach(wanted) {
		return time.Time{}, &quantity.Error{
			Text: text, Named: true, Problem: fmt.Sprintf("%s lies outside the years %d to %d", text, firstYear, lastYear), Mend: "check the year",
		}
	}
	all := showing(wanted, zone)
	if len(all) == 0 {
		_, _, instead := leap(wanted, zone)
		return time.Time{}, &quantity.Error{
			Text: text, Named: true, Problem: fmt.Sprintf("%s does not exist in the zone %s: the clock leaps over it that day", text, zone),
			Mend: "write " + instead.Format(startLayout) + ", or another zone",
		}
	}
	for _, t := range slices.Backward(all) { // of two the later one, as ever
		if isMarked(t, mark) {
			return t, nil
		}
	}
	t := all[len(all)-1]
	return time.Time{}, &quantity.Error{
		Text: text, Problem: fmt.Sprintf("at %s the clock of the zone %s is %s, not %s", wall, zone, t.Format("-0700"), mark),
		Mend: "write " + t.Format(startLayout+" -0700") + ", or leave the offset out",
	}
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
				document.Text("at", &p.at, document.Required(), document.Doc("time of day, with its date where that is another day"), document.Example("09:00"), document.Form(clockPattern)),
				document.Quantity("is", &p.is, document.Required(), document.Between(coldest, hottest), document.Doc("temperature then"), document.Example("19 °C")),
			})
		}, document.Items(1, 0)),
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
		clock, err := clockAfter(p.at, day, start, last, zone)
		if refusal := (*quantity.Error)(nil); errors.As(err, &refusal) {
			fault(i, refusal.Problem, refusal.Mend)
			return
		}
		day, last = clock, clock.Sub(start).Seconds()
		at, is = append(at, quantity.Time(last)), append(is, p.is)
	}
	series, err := vessel.NewSeries(at, is)
	if err != nil {
		fault(0, "no temperature is given", "write one, such as 22 °C, or a list: [{at: 09:00, is: 19 °C}, {at: 12:00, is: 24 °C}]")
		return
	}
	t.series, t.settled = series, true
}

// longestNight is how far a time of day may reach into the next day before it is
// taken for a time out of order.
const longestNight = 14 * time.Hour

// clockAfter reads a date and a time, or a time of day on day or the next one,
// that lies more than last seconds after start. Its error is a
// [*quantity.Error].
func clockAfter(text string, day, start time.Time, last float64, zone *time.Location) (time.Time, error) {
	after := func(t time.Time) bool { return t.Sub(start).Seconds() > last }
	if _, err := time.Parse("15:04", text); err == nil {
		clock, err := parseStart(day.Format(time.DateOnly)+" "+text, zone)
		if err != nil || after(clock) {
			return clock, err
		}
		before := clock
		if clock, err = parseStart(day.AddDate(0, 0, 1).Format(time.DateOnly)+" "+text, zone); err == nil && clock.Sub(day) > longestNight {
			return before, &quantity.Error{
				Text: text, Named: true, Problem: text + " does not come after the time before it",
				Mend: "give the times in order; for the next day write " + clock.Format(startLayout),
			}
		}
		return clock, err
	}
	if _, err := time.Parse(startLayout, text); err != nil {
		return time.Time{}, &quantity.Error{
			Text: text, Named: true, Problem: text + " is not a time of day", Mend: "write a time of day like 09:00, or 2026-11-28 09:00",
		}
	}
	clock, err := parseStart(text, zone)
	if err == nil && !after(clock) {
		err = &quantity.Error{Text: text, Named: true, Problem: text + " does not come after the time before it", Mend: "give the times in order"}
	}
	return clock, err
}

// late doubts a room's course that begins after the start of the job; nil: it does not.
func (t *Temperature) late() warning.Warning {
	if len(t.points) == 0 || !t.settled || t.series.Begins() <= 0 {
		return nil
	}
	return RoomBeginsLate{Begins: t.points[0].at, Taken: t.points[0].is}
}

// Series is the temperature over elapsed seconds.
func (t *Temperature) Series() (series vessel.Series, known bool) { return t.series, t.settled }

// Clock returns the time of day at an elapsed time of the job.
func (j *Job) Clock(elapsed quantity.Time) time.Time {
	return j.Start.Add(time.Duration(math.Round(float64(elapsed) * float64(time.Second))))
}
