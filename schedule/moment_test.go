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
