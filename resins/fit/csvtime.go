package fit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"time"
)

// A timeForm is how a log writes times.
type timeForm int

const (
	undecided timeForm = iota
	plainNumbers
	hoursMinutesSeconds
	hoursMinutes
	minutesSeconds
)

// A stamp is a time of a log: perhaps a date, then two or three parts, perhaps
// a half of the day and a zone.
var (
	stampForm = regexp.MustCompile(`^(?:(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}\.\d{1,2}\.\d{2,4}|\d{1,2}/\d{1,2}/\d{2,4})[ T,]+)?(\d{1,3}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)? ?([AaPp]\.?[Mm]\.?)?(?: ?(?:Z|[+-]\d{2}:?\d{2}))?$`)
	dateForm  = regexp.MustCompile(`^(?:\d{4}-\d{1,2}-\d{1,2}|\d{1,2}\.\d{1,2}\.\d{2,4}|\d{1,2}/\d{1,2}/\d{2,4})$`)
)

func clocklike(cell string) bool { return stampForm.MatchString(cell) }
func datelike(cell string) bool  { return dateForm.MatchString(cell) }

// settleTime decides how times are written, by the header first, then by the
// readings.
func (r *logReader) settleTime(data []row) bool {
	c := &r.columns
	cell := data[0].cell(c.time)
	m := stampForm.FindStringSubmatch(cell)
	switch {
	case m == nil:
		c.form = plainNumbers
		return c.timeUnit > 0 || r.guessUnit(data)
	case m[4] != "":
		c.form = hoursMinutesSeconds
		return true
	case c.form == minutesSeconds || c.form == hoursMinutes:
		return true
	case m[1] != "" || m[6] != "" || c.date >= 0:
		c.form = hoursMinutes
		return true
	}
	return r.guessParts(data)
}

// guessParts decides what a:b means: minutes and seconds where a runs beyond the
// hours of a day, the time of day where it begins at five or later.
func (r *logReader) guessParts(data []row) bool {
	c := &r.columns
	for _, w := range data {
		if m := stampForm.FindStringSubmatch(w.cell(c.time)); m != nil {
			if a, _ := strconv.Atoi(m[2]); a > 23 {
				c.form = minutesSeconds
				r.note(MinutesAndSeconds{File: r.file, To: w.cell(c.time)})
				return true
			}
		}
	}
	first := data[0].cell(c.time)
	if a, _ := strconv.Atoi(stampForm.FindStringSubmatch(first)[2]); a >= 5 {
		c.form = hoursMinutes
		r.note(TimeOfDay{File: r.file, First: first})
		return true
	}
	r.fault(data[0], first+" may be hours and minutes or minutes and seconds", "name it in the header, time hh:mm or time mm:ss, or write three parts: 00:05:00")
	return false
}

// guessUnit decides on the unit of plain numbers: a cup test lasts from some
// minutes to a day, so that a span has one meaning below 300 (min) and above
// 1500 (s).
func (r *logReader) guessUnit(data []row) bool {
	c := &r.columns
	low, high, found := 0.0, 0.0, false
	for _, w := range data {
		if v, ok := r.number(w.cell(c.time)); ok {
			if !found {
				low, high, found = v, v, true
			}
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	mend := "name it in the header: time_s, time_min or time_h"
	switch span := high - low; {
	case !found:
		r.fault(data[0], "«"+shown(data[0].cell(c.time))+"» is not a time", "write seconds, minutes or hh:mm:ss")
		return false
	case span > 1500:
		c.timeUnit = 1
		r.note(UnitOfTimes{File: r.file, Span: span, Unit: 1})
	case span >= 10 && span <= 300:
		c.timeUnit = 60
		r.note(UnitOfTimes{File: r.file, Span: span, Unit: 60})
	default:
		r.fault(data[0], fmt.Sprintf("the times name no unit, and their span of %g may mean several", span), mend)
		return false
	}
	return true
}

// A clock turns the times of a log into seconds that never jump back at midnight.
type clock struct {
	form    timeForm
	unit    float64
	elapsed bool // the file counts from a zero of its own
	started bool
	shift   float64 // whole days, s
	last    float64
}

const day = 86400.0

// time returns the time of a row in s; false after a fault or for an empty cell.
func (r *logReader) time(c *clock, w row) (float64, bool) {
	cell := w.cell(r.columns.time)
	if c.form == plainNumbers {
		value, ok := r.number(cell)
		if !ok {
			r.fault(w, "«"+shown(cell)+"» is not a time", "write it as the lines above do, or take the line out")
			return 0, false
		}
		if !c.started {
			// More than a week from zero is no elapsed time but some epoch's.
			c.started, c.elapsed = true, value*c.unit < 7*day
		}
		return value * c.unit, true
	}
	m := stampForm.FindStringSubmatch(cell)
	if m == nil || (m[4] == "") == (c.form == hoursMinutesSeconds) {
		r.fault(w, "«"+shown(cell)+"» is not a time", "write it as the lines above do, or take the line out")
		return 0, false
	}
	if m[1] == "" && r.columns.date >= 0 {
		m[1] = w.cell(r.columns.date)
	}
	seconds, ok := c.seconds(m)
	if !ok {
		r.fault(w, "«"+shown(cell)+"» is no time of a day", "check the line")
		return 0, false
	}
	date, dated := dayOf(m[1])
	if dated {
		seconds += date
	} else {
		if c.started && seconds+c.shift < c.last-day/2 && c.form != minutesSeconds {
			c.shift += day
		}
		seconds += c.shift
	}
	if !c.started {
		c.started, c.elapsed = true, m[1] == "" && m[6] == "" && (seconds < 3600 || c.form == minutesSeconds)
	}
	c.last = seconds
	return seconds, true
}

// seconds adds the parts of a stamp up.
func (c *clock) seconds(m []string) (float64, bool) {
	a, _ := strconv.Atoi(m[2])
	b, _ := strconv.Atoi(m[3])
	s, _ := strconv.Atoi("0" + m[4])
	fraction := 0.0
	if m[5] != "" {
		fraction, _ = strconv.ParseFloat("0."+m[5], 64)
	}
	if b > 59 || s > 59 {
		return 0, false
	}
	if m[6] != "" {
		if a < 1 || a > 12 {
			return 0, false
		}
		a %= 12
		if m[6][0] == 'p' || m[6][0] == 'P' {
			a += 12
		}
	}
	if c.form == minutesSeconds {
		return float64(60*a+b) + fraction, true
	}
	return float64(3600*a+60*b+s) + fraction, true
}

// dayOf returns the start of a date in s. Dates with strokes are written in two
// orders and are left to the midnights in between.
func dayOf(text string) (float64, bool) {
	for _, layout := range []string{"2006-1-2", "2.1.2006", "2.1.06"} {
		if t, err := time.Parse(layout, text); err == nil {
			return float64(t.Unix()), true
		}
	}
	return 0, false
}
