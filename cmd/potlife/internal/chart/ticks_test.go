package chart

import (
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zone below must be there on any machine

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func labels(ticks []clockTick) string {
	var all []string
	for _, t := range ticks {
		all = append(all, strings.ReplaceAll(t.label, "\n", " "))
	}
	return strings.Join(all, ", ")
}

func TestClockTicks(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	kathmandu := time.FixedZone("", 5*3600+45*60)
	day := func(zone *time.Location, month time.Month, d, hour, minute, second int) time.Time {
		return time.Date(2026, month, d, hour, minute, second, 0, zone)
	}
	rows := []struct {
		name  string
		start time.Time
		span  time.Duration
		want  string
	}{
		{"a minute", day(time.UTC, 11, 28, 9, 0, 20), time.Minute, "09:00:20 2026-11-28, 09:00:30, 09:00:40, 09:00:50, 09:01:00, 09:01:10, 09:01:20"},
		{"between seconds", day(time.UTC, 11, 28, 9, 0, 0).Add(time.Millisecond), 2 * time.Second, "09:00:01 2026-11-28, 09:00:02"},
		{"minutes", day(time.UTC, 11, 28, 9, 2, 10), 40 * time.Minute, "09:05 2026-11-28, 09:10, 09:15, 09:20, 09:25, 09:30, 09:35, 09:40"},
		{"an hour and a half", day(time.UTC, 11, 28, 9, 2, 0), 90 * time.Minute, "09:10 2026-11-28, 09:20, 09:30, 09:40, 09:50, 10:00, 10:10, 10:20, 10:30"},
		{"two hours", day(time.UTC, 11, 28, 9, 7, 0), 2 * time.Hour, "09:15 2026-11-28, 09:30, 09:45, 10:00, 10:15, 10:30, 10:45, 11:00"},
		{"a morning", day(time.UTC, 11, 28, 9, 0, 0), 4 * time.Hour, "09:00 2026-11-28, 09:30, 10:00, 10:30, 11:00, 11:30, 12:00, 12:30, 13:00"},
		{"over midnight", day(time.UTC, 11, 28, 20, 10, 0), 6 * time.Hour, "21:00 2026-11-28, 22:00, 23:00, 00:00 2026-11-29, 01:00, 02:00"},
		{"a shift and more", day(time.UTC, 11, 28, 5, 0, 0), 15 * time.Hour, "06:00 2026-11-28, 08:00, 10:00, 12:00, 14:00, 16:00, 18:00, 20:00"},
		{"a day", day(time.UTC, 11, 28, 8, 0, 0), 24 * time.Hour, "09:00 2026-11-28, 12:00, 15:00, 18:00, 21:00, 00:00 2026-11-29, 03:00, 06:00"},
		{"two days", day(time.UTC, 11, 28, 8, 0, 0), 48 * time.Hour, "12:00 2026-11-28, 18:00, 00:00 2026-11-29, 06:00, 12:00, 18:00, 00:00 2026-11-30, 06:00"},
		{"five days", day(time.UTC, 11, 28, 8, 0, 0), 120 * time.Hour, "00:00 2026-11-29, 00:00 2026-11-30, 00:00 2026-12-01, 00:00 2026-12-02, 00:00 2026-12-03"},
		{"a zone of quarter hours", day(kathmandu, 11, 28, 9, 0, 0), 6 * time.Hour, "09:00 2026-11-28, 10:00, 11:00, 12:00, 13:00, 14:00, 15:00"},
		// The clocks go back on 2026-10-25 at 03:00 and forward on 2026-03-29 at 02:00
		// (Directive 2000/84/EC: last Sundays of October and March, 01:00 UTC).
		{"an hour twice", day(berlin, 10, 25, 0, 0, 0), 7 * time.Hour, "00:00 2026-10-25, 01:00, 02:00, 02:00, 03:00, 04:00, 05:00, 06:00"},
		{"an hour left out", day(berlin, 3, 29, 0, 0, 0), 5 * time.Hour, "00:00 2026-03-29, 01:00, 03:00, 04:00, 05:00, 06:00"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got := labels(clockTicks(r.start, r.start.Add(r.span), mostTicks))
			if d := cmp.Diff(r.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

// TestClockTicksAnywhere holds for any course that check lets through: some ticks, not too
// many, in order and within it.
func TestClockTicksAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := nine.Add(time.Duration(rapid.Int64Range(0, int64(365*24*time.Hour)).Draw(t, "start")))
		span := time.Duration(rapid.Int64Range(int64(2*shortest), int64(longest)).Draw(t, "span"))
		ticks := clockTicks(start, start.Add(span), mostTicks)
		if len(ticks) < 1 || len(ticks) > mostTicks {
			t.Fatalf("%d ticks in %v from %v", len(ticks), span, start)
		}
		for i, tick := range ticks {
			if tick.at.Before(start) || tick.at.After(start.Add(span)) {
				t.Fatalf("tick %v is outside %v and %v later", tick.at, start, span)
			}
			if i > 0 && !tick.at.After(ticks[i-1].at) {
				t.Fatalf("tick %v does not follow %v", tick.at, ticks[i-1].at)
			}
		}
	})
}

func TestViscosityTicks(t *testing.T) {
	for _, r := range []struct {
		top  float64
		want string
	}{
		{1875, "0 200 400 600 800 1000 1200 1400 1600 1800"},
		{1250, "0 200 400 600 800 1000 1200"},
		{1000, "0 200 400 600 800 1000"},
		{625, "0 100 200 300 400 500 600"},
		{0.125, "0 0.02 0.04 0.06 0.08 0.1 0.12"},
		{1.25e9, "0 200000000 400000000 600000000 800000000 1000000000 1200000000"},
	} {
		var got []string
		for _, tick := range valueTicks(0, r.top) {
			got = append(got, tick.Label)
		}
		if d := cmp.Diff(r.want, strings.Join(got, " ")); d != "" {
			t.Errorf("top %g: %s", r.top, d)
		}
	}
}
