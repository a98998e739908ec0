package schedule

import (
	"fmt"
	"time"
)

// ParseMoment reads when something happened: a time of day of today in the zone,
// with or without seconds, a date and a time, or nothing for now.
func ParseMoment(flag, text string, now time.Time, zone *time.Location) (time.Time, error) {
	if text == "" {
		return now.In(zone).Truncate(time.Second), nil
	}
	today := now.In(zone).Format(time.DateOnly) + " "
	for _, try := range []struct{ layout, text string }{
		{"2006-01-02 15:04", today + text},
		{"2006-01-02 15:04:05", today + text},
		{"2006-01-02 15:04", text},
		{"2006-01-02 15:04:05", text},
		{time.RFC3339, text},
	} {
		t, err := time.ParseInLocation(try.layout, try.text, zone)
		if err != nil {
			continue
		}
		if t.Format(try.layout) != try.text {
			return time.Time{}, fmt.Errorf("%s: %s does not exist in this zone: the clock leaps over it", flag, text)
		}
		return t, nil
	}
	return time.Time{}, fmt.Errorf("%s: %q is not a time\n   write it like this: 14:05, or 2026-11-28 14:05", flag, text)
}
