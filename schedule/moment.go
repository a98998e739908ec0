package schedule

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"potlife/kinetics/warning"
)

// ParseMoment reads when something happened: a time of day of today in the zone,
// with or without seconds, a date and a time, or nothing for now. An offset or the zone's
// own letters may follow, as in 02:30 +0100 and 02:30 CET. Where the clock
// shows a time twice, as when summer ends, the last that has passed is meant unless
// they say otherwise; [ShownTwice] warns of it.
func ParseMoment(flag, text string, now time.Time, zone *time.Location) (time.Time, error) {
	t, err := parseMoment(flag, text, now, zone)
	if err == nil && !inReach(t) {
		return time.Time{}, fmt.Errorf("%s: %q lies outside the years %d to %d\n   write the year in which it happened", flag, text, firstYear, lastYear)
	}
	return t, err
}

// Years that a crew can mean; beyond them clocks and journals have no common form.
const firstYear, lastYear = 1970, 2199

func inReach(t time.Time) bool { return t.Year() >= firstYear && t.Year() <= lastYear }

func parseMoment(flag, text string, now time.Time, zone *time.Location) (time.Time, error) {
	if text == "" {
		return now.In(zone).Truncate(time.Second), nil
	}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t.In(zone), nil
	}
	wall, dated, mark, ok := readWall(text, now, zone)
	if !ok {
		return time.Time{}, fmt.Errorf("%s: %q is not a time\n   write it like this: 14:05, 2026-11-28 14:05, or 02:30 +0100 where the clock shows it twice", flag, text)
	}
	return onClock(flag, text, wall, dated, mark, now, zone)
}

// marked is a time with what tells which of two is meant: an offset, or letters of a zone.
var marked = regexp.MustCompile(`^(.*:[0-9]{2}) ?(Z|[+-][0-9]{2}(?::?[0-9]{2})?|[A-Z]{3,5})$`)

// unmarked takes the mark of a time away; empty: it has none.
func unmarked(text string) (wall, mark string) {
	m := marked.FindStringSubmatch(text)
	if m == nil {
		return text, ""
	}
	mark = strings.Replace(m[2], ":", "", 1)
	switch {
	case mark == "Z":
		mark = "+0000"
	case len(mark) == 3 && (mark[0] == '+' || mark[0] == '-'):
		mark += "00"
	}
	return m[1], mark
}

// readWall reads what a clock on the wall shows, and the mark behind it; dated: the day is
// written as well.
func readWall(text string, now time.Time, zone *time.Location) (wall time.Time, dated bool, mark string, ok bool) {
	text, mark = unmarked(text)
	today := now.In(zone).Format(time.DateOnly) + " "
	for i, try := range []string{today + text, text} {
		for _, layout := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05"} {
			if wall, err := time.Parse(layout, try); err == nil {
				return wall, i == 1, mark, true
			}
		}
	}
	return wall, false, mark, false
}

// showing are the moments at which a clock in the zone shows the wall time, the first one first.
func showing(wall time.Time, zone *time.Location) []time.Time {
	var list []time.Time
	guess := onWall(wall, zone)
	// A clock is set back by two hours at most anywhere.
	for _, shift := range []time.Duration{-2 * time.Hour, -time.Hour, -30 * time.Minute, 0, 30 * time.Minute, time.Hour, 2 * time.Hour} {
		if t := guess.Add(shift); t.Format(time.DateTime) == wall.Format(time.DateTime) {
			list = append(list, t)
		}
	}
	return list
}

func onWall(wall time.Time, zone *time.Location) time.Time {
	return time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), 0, zone)
}

// isMarked tells whether a moment has the offset or the letters given.
func isMarked(t time.Time, mark string) bool {
	letters, _ := t.Zone()
	return mark == "" || mark == letters || mark == t.Format("-0700")
}

// onClock finds the moment at which a clock in the zone shows the wall time.
func onClock(flag, text string, wall time.Time, dated bool, mark string, now time.Time, zone *time.Location) (time.Time, error) {
	all := showing(wall, zone)
	if len(all) == 0 {
		from, to, instead := leap(wall, zone)
		return time.Time{}, fmt.Errorf("%s: %s does not exist in this zone on %s: the clock leaps over it, from %s to %s\n   write %s if your clock was not put on yet, else what it showed",
			flag, text, wall.Format(time.DateOnly), from, to, momentWords(instead, dated))
	}
	var best time.Time
	for _, t := range all {
		if isMarked(t, mark) && (best.IsZero() || !t.After(now)) {
			best = t
		}
	}
	if best.IsZero() {
		last := all[len(all)-1]
		return best, fmt.Errorf("%s: at %s the clock of this zone is %s, not %s\n   write '%s %[3]s', or the whole moment: %[6]s",
			flag, wall.Format(time.DateTime), last.Format("-0700"), mark, momentWords(last, dated), last.Format(time.RFC3339))
	}
	return best, nil
}

// momentWords are a moment as --at takes it, with its day where that was written.
func momentWords(t time.Time, dated bool) string {
	if dated {
		return t.Format(startLayout)
	}
	return t.Format("15:04")
}

// leap is between which times a clock leaps over a wall time, and what a clock that was not put
// on shows instead of it.
func leap(wall time.Time, zone *time.Location) (from, to string, instead time.Time) {
	near := onWall(wall, zone) // an hour before or after, as the library takes it
	begins, ends := near.ZoneBounds()
	at := ends
	if near.Format(time.DateTime) > wall.Format(time.DateTime) {
		at = begins
	}
	_, before := at.Add(-time.Second).Zone()
	last := at.In(time.FixedZone("", before))
	instead = time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), 0, last.Location()).In(zone)
	return last.Format("15:04"), at.Format("15:04"), instead
}

// ShownTwice warns of a time that was written without its offset, where a clock in the zone of
// the moment that was taken shows it twice.
func ShownTwice(text string, taken time.Time) []warning.Warning {
	if text == "" {
		return nil
	}
	wall, _, mark, ok := readWall(text, taken, taken.Location())
	if !ok || mark != "" {
		return nil
	}
	for _, other := range showing(wall, taken.Location()) {
		if !other.Equal(taken) {
			return []warning.Warning{TimeShownTwice{Taken: taken, Other: other}}
		}
	}
	return nil
}
