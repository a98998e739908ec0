package schedule

import (
	"fmt"
	"time"
)

// ParseMoment reads when something happened: a time of day of today in the zone,
// with or without seconds, a date and a time, or nothing for now. Where the clock
// shows a time twice, as when summer ends, the last that has passed is meant.
func ParseMoment(flag, text string, now time.Time, zone *time.Location) (time.Time, error) {
	if text == "" {
		return now.In(zone).Truncate(time.Second), nil
	}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t.In(zone), yearOf(flag, text, t)
	}
	today := now.In(zone).Format(time.DateOnly) + " "
	for _, try := range []string{today + text, text} {
		for _, layout := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05"} {
			if wall, err := time.Parse(layout, try); err == nil {
				if err := yearOf(flag, text, wall); err != nil {
					return time.Time{}, err
				}
				return onClock(flag, text, wall, now, zone)
			}
		}
	}
	return time.Time{}, fmt.Errorf("%s: %q is not a time\n   write it like this: 14:05, or 2026-11-28 14:05", flag, text)
}

// yearOf refuses a year that is a slip of the pen.
func yearOf(flag, text string, t time.Time) error {
	if year := t.Year(); year < firstYear || year > lastYear {
		return fmt.Errorf("%s: %q lies in the year %d\n   write it like this: 14:05, or 2026-11-28 14:05", flag, text, year)
	}
	return nil
}

// onClock finds the moment at which a clock in the zone shows the wall time.
func onClock(flag, text string, wall, now time.Time, zone *time.Location) (time.Time, error) {
	shows := func(t time.Time) bool { return t.Format(time.DateTime) == wall.Format(time.DateTime) }
	guess := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), 0, zone)
	var best time.Time
	// A clock is set back by two hours at most anywhere.
	for _, shift := range []time.Duration{-2 * time.Hour, -time.Hour, -30 * time.Minute, 0, 30 * time.Minute, time.Hour, 2 * time.Hour} {
		t := guess.Add(shift)
		if shows(t) && (best.IsZero() || !t.After(now)) {
			best = t
		}
	}
	if best.IsZero() {
		return best, fmt.Errorf("%s: %s does not exist in this zone: the clock leaps over it\n   write the time that the clock on the wall shows", flag, text)
	}
	return best, nil
}
