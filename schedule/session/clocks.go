package session

import (
	"time"

	"potlife/schedule"
)

// ClocksDiffer stands where events lie ahead of the clock by which is asked: it was set back, or
// they were logged by another one. How old resin is cannot be told then.
type ClocksDiffer struct {
	Events int       // that lie ahead
	Clock  time.Time // by which is asked
	Seq    int       // of the last event
	Last   time.Time // when that happened, by the clock that logged it
}

// Code names it for programs.
func (ClocksDiffer) Code() string { return "clocks-differ" }

// By is how far the last event lies ahead.
func (c ClocksDiffer) By() time.Duration { return c.Last.Sub(c.Clock) }

// Differ tells whether events that were not taken back lie ahead of a clock, by more than clocks
// of two machines may.
func Differ(all []Event, clock time.Time) (c ClocksDiffer, differ bool) {
	for _, e := range Active(all) {
		if ahead(e, clock) {
			c.Events++
		}
		c.Seq, c.Last = e.Seq, e.At
	}
	c.Clock = clock
	return c, c.Events > 0
}

func ahead(e Event, clock time.Time) bool { return e.At.After(clock.Add(farthestAhead)) }

// Last is when the last event happened that was not taken back; zero: there is none.
func Last(all []Event) time.Time {
	c, _ := Differ(all, time.Time{})
	return c.Last
}

// Refusal is that of an event that is to have happened now, which is not known.
func (c ClocksDiffer) Refusal() error {
	layout := clockOnly
	if c.By() >= 12*time.Hour {
		layout = "2006-01-02 " + clockOnly
	}
	return refuse("set the clock that is wrong, and log it again; if this one is right, undo what lies ahead and log it anew with --at; until then add --at with the time by the clock that is ahead",
		"this machine's clock says %s, and the last event, e%d, was at %s: two clocks differ, or this one was set back",
		c.Clock.In(c.Last.Location()).Format(layout), c.Seq, c.Last.Format(layout))
}

// LongestSilence is after how long without an event nobody asks about a bath any more, or goes on
// with it: whatever it was, it has set.
const LongestSilence = 31 * 24 * time.Hour

// LastEvent is what --at takes for the time of the last event.
const LastEvent = "last"

// ReadAt reads when something happened, as [schedule.ParseMoment] does, or [LastEvent].
func ReadAt(text string, all []Event, now time.Time, zone *time.Location) (time.Time, error) {
	if last := Last(all); text == LastEvent && !last.IsZero() {
		return last.In(zone), nil
	}
	return schedule.ParseMoment("--at", text, now, zone)
}
