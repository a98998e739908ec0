// Package calendar writes iCalendar files: events in UTC, each with an alarm, as RFC 5545
// (B. Desruisseaux, Internet Calendaring and Scheduling Core Object Specification, 2009) has
// them. Sections in comments are of that RFC. Recurrence, time zones and methods are not here.
package calendar

import (
	"errors"
	"fmt"
	"time"
)

// A Calendar is a file of events.
type Calendar struct {
	Product string    // what wrote it, 3.7.3
	Stamp   time.Time // when it was written, 3.8.7.2
	Events  []Event
}

// An Event is something with a beginning and an end.
type Event struct {
	UID         string // see [UID]
	Start, End  time.Time
	Summary     string
	Description string
	Alarm       time.Duration // before Start, whole seconds; 0: none
}

// Encode returns the file. Whole seconds of times are kept. An error is what no calendar
// can hold: no event at all (3.6), one without an identity or with that of another (3.8.4.7),
// one that ends before it begins (3.8.2.2), an alarm of negative lead, a year beyond four
// digits (3.3.4).
func (c *Calendar) Encode() ([]byte, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	var l lines
	l.add("BEGIN", "VCALENDAR")
	l.add("VERSION", "2.0")
	l.add("PRODID", text(c.Product))
	for i := range c.Events {
		l.event(&c.Events[i], c.Stamp)
	}
	l.add("END", "VCALENDAR")
	return l.Bytes(), nil
}

func (l *lines) event(e *Event, stamp time.Time) {
	l.add("BEGIN", "VEVENT")
	l.add("UID", text(e.UID))
	l.add("DTSTAMP", utc(stamp))
	l.add("DTSTART", utc(e.Start))
	// An end must be later than the start; without one the event ends as it starts, 3.6.1.
	if end := utc(e.End); end != utc(e.Start) {
		l.add("DTEND", end)
	}
	l.add("SUMMARY", text(e.Summary))
	if e.Description != "" {
		l.add("DESCRIPTION", text(e.Description))
	}
	if e.Alarm > 0 {
		l.add("BEGIN", "VALARM")
		l.add("ACTION", "DISPLAY")
		l.add("DESCRIPTION", text(e.Summary)) // an alarm that displays needs one, 3.6.6
		l.add("TRIGGER", "-"+duration(e.Alarm))
		l.add("END", "VALARM")
	}
	l.add("END", "VEVENT")
}

func (c *Calendar) check() error {
	if len(c.Events) == 0 {
		return errors.New("a calendar needs an event")
	}
	seen := map[string]bool{}
	for i := range c.Events {
		e := &c.Events[i]
		switch {
		case e.UID == "" || seen[e.UID]:
			return fmt.Errorf("event %d: the identity %q is empty or taken", i+1, e.UID)
		case e.End.Before(e.Start):
			return fmt.Errorf("event %d ends before it begins", i+1)
		case e.Alarm < 0 || e.Alarm%time.Second != 0:
			return fmt.Errorf("event %d: an alarm %s before it", i+1, e.Alarm)
		}
		for _, at := range []time.Time{c.Stamp, e.Start, e.End} {
			if y := at.UTC().Year(); y < 1 || y > 9999 {
				return fmt.Errorf("event %d: the year %d", i+1, y)
			}
		}
		seen[e.UID] = true
	}
	return nil
}
