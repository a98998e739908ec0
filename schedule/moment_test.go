package schedule_test

import (
	"strings"
	"testing"
	"time"

	"potlife/schedule"
)

// TestMoments: times of day, with seconds, with a date, RFC 3339, and nothing.
func TestMoments(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 11, 28, 14, 10, 5, 700, berlin)
	for text, want := range map[string]string{
		"": "2026-11-28T14:10:05+01:00", "14:05": "2026-11-28T14:05:00+01:00", "9:05": "2026-11-28T09:05:00+01:00",
		"14:05:30": "2026-11-28T14:05:30+01:00", "2026-11-27 23:30": "2026-11-27T23:30:00+01:00",
		"2026-11-28T12:00:00+00:00": "2026-11-28T13:00:00+01:00", "2026-11-28T12:00:00Z": "2026-11-28T13:00:00+01:00",
	} {
		got, err := schedule.ParseMoment("--at", text, now, berlin)
		if err != nil || got.Format(time.RFC3339) != want {
			t.Errorf("%q is %v, %v; want %s", text, got, err, want)
		}
	}
	for _, text := range []string{"noon", "25:00", "14.05", "2026-13-01 10:00"} {
		if got, err := schedule.ParseMoment("--at", text, now, berlin); err == nil || !strings.Contains(err.Error(), "--at") {
			t.Errorf("%q is taken as %v, %v", text, got, err)
		}
	}
}

// TestMomentsAtTheHourChange: of an hour shown twice, the last that has passed is
// meant; an hour leapt over does not exist.
func TestMomentsAtTheHourChange(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	first := time.Date(2026, 10, 25, 0, 40, 0, 0, time.UTC) // 02:40 summer time
	second := first.Add(time.Hour)                          // 02:40 again
	for now, want := range map[time.Time]string{first: "2026-10-25T02:15:00+02:00", second: "2026-10-25T02:15:00+01:00"} {
		got, err := schedule.ParseMoment("--at", "02:15", now, berlin)
		if err != nil || got.Format(time.RFC3339) != want {
			t.Errorf("02:15 told at %v is %v, %v; want %s", now.In(berlin), got, err, want)
		}
	}
	spring := time.Date(2026, 3, 29, 9, 0, 0, 0, berlin)
	if got, err := schedule.ParseMoment("--at", "02:30", spring, berlin); err == nil || !strings.Contains(err.Error(), "leaps") {
		t.Errorf("02:30 on the day that the clock leaps is %v, %v", got, err)
	}
}

// TestMomentsSayWhichOfTwo: an offset or the letters of the zone tell two times apart that a
// clock shows alike, and without them the one taken is named; an offset that the zone does not
// have then is a slip.
func TestMomentsSayWhichOfTwo(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 10, 25, 9, 0, 0, 0, berlin)
	const summer, winter = "2026-10-25T02:30:00+02:00", "2026-10-25T02:30:00+01:00"
	for text, want := range map[string]string{
		"02:30": winter, "2026-10-25 02:30": winter, "2:30": winter,
		"02:30 +0100": winter, "02:30 +01:00": winter, "02:30+01": winter, "02:30:00 +0100": winter, "2026-10-25 02:30 +0100": winter, "02:30 CET": winter,
		"02:30 +0200": summer, "02:30 +02:00": summer, "2026-10-25 02:30 CEST": summer,
	} {
		got, err := schedule.ParseMoment("--at", text, now, berlin)
		if err != nil || got.Format(time.RFC3339) != want {
			t.Errorf("%q is %v, %v; want %s", text, got, err, want)
			continue
		}
		warned := schedule.ShownTwice(text, got)
		bare := !strings.ContainsAny(text, "+C")
		if bare != (len(warned) == 1) {
			t.Errorf("%q: warned %v", text, warned)
		}
		if bare && warned[0] != (schedule.TimeShownTwice{Taken: got, Other: got.Add(-time.Hour)}) {
			t.Errorf("%q: warned %v", text, warned)
		}
	}
	for _, once := range []string{"", "01:59", "03:00", "2026-11-28 02:30", winter} {
		got, err := schedule.ParseMoment("--at", once, now, berlin)
		if warned := schedule.ShownTwice(once, got); err != nil || warned != nil {
			t.Errorf("%q: %v, warned %v", once, err, warned)
		}
	}
	for text, says := range map[string]string{
		"02:30 +0500": "write '02:30 +0100', or the whole moment: " + winter, "14:05 +0200": "write '14:05 +0100'", "14:05 CEST": "is +0100, not CEST",
		"02:30 +99": "not +9900", "02:30 PM": "is not a time", "+0100": "is not a time", "14:05 ": "is not a time",
	} {
		if got, err := schedule.ParseMoment("--at", text, now, berlin); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q is %v, %v; want %q", text, got, err, says)
		}
	}
}

// TestMomentsLeaptOver: what a clock leaps over is refused with the time that is meant by a clock
// that was not put on, and that is taken.
func TestMomentsLeaptOver(t *testing.T) {
	for _, c := range []struct{ zone, text, says, fix string }{
		{"Europe/Berlin", "2026-03-29 02:30", "from 02:00 to 03:00", "write 2026-03-29 03:30 if"},
		{"Europe/Berlin", "02:30", "on 2026-03-29", "write 03:30 if"},
		{"Australia/Lord_Howe", "2026-10-04 02:15", "from 02:00 to 02:30", "write 2026-10-04 02:45 if"},
		{"Pacific/Apia", "2011-12-30 12:00", "does not exist", "write 2011-12-31 12:00 if"},
		{"America/St_Johns", "2026-03-08 02:00", "from 02:00 to 03:00", "write 2026-03-08 03:00 if"},
	} {
		zone, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		now := time.Date(2026, 3, 29, 9, 0, 0, 0, zone)
		got, err := schedule.ParseMoment("--at", c.text, now, zone)
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.fix) {
			t.Errorf("%s in %s is %v, %v", c.text, c.zone, got, err)
			continue
		}
		_, fix, _ := strings.Cut(err.Error(), "write ")
		fix, _, _ = strings.Cut(fix, " if")
		if _, err := schedule.ParseMoment("--at", fix, now, zone); err != nil {
			t.Errorf("%s in %s: the fix is refused: %v", c.text, c.zone, err)
		}
	}
}
