package schedule_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule"
)

const berlin = "zone: Europe/Berlin"

// roomAfter is the room's temperature of a job in °C, after hours from its start.
func roomAfter(t *testing.T, j *schedule.Job, hours float64) float64 {
	t.Helper()
	room, known := j.Room.Series()
	if !known {
		t.Fatal("no room temperature")
	}
	return room.At(quantity.Time(hours * 3600)).Celsius()
}

// TestRoomOverMidnight: times of day count on into the next day, and once more
// into the one after; a whole day later needs its date.
func TestRoomOverMidnight(t *testing.T) {
	j := soundJob(t, "zone: local", "zone: UTC", "2026-11-28 09:00", "2026-11-28 21:00",
		"room: 22 °C", "room: [{at: 20:00, is: 10 °C}, {at: 23:00, is: 16 °C}, {at: 01:00, is: 12 °C}, {at: 7:00, is: 20 °C}, {at: 2026-11-30 06:00, is: 14 °C}]")
	for hours, want := range map[float64]float64{-1: 10, 0: 12, 2: 16, 3: 14, 4: 12, 10: 20, 33: 14, 50: 14} {
		if got := roomAfter(t, j, hours); !(math.Abs(got-want) <= 1e-9) { // rounding of kelvin
			t.Errorf("%g h after 21:00: %g °C, want %g", hours, got, want)
		}
	}
}

// TestRoomWithDates: a date settles which day is meant.
func TestRoomWithDates(t *testing.T) {
	j := soundJob(t, "zone: local", "zone: UTC",
		"room: 22 °C", "room: [{at: 2026-11-27 09:00, is: 10 °C}, {at: 2026-11-29 09:00, is: 20 °C}, {at: 12:00, is: 23 °C}]")
	for hours, want := range map[float64]float64{-24: 10, 0: 15, 24: 20, 27: 23} {
		if got := roomAfter(t, j, hours); !(math.Abs(got-want) <= 1e-9) {
			t.Errorf("%g h after the start: %g °C, want %g", hours, got, want)
		}
	}
}

// TestHourChanges: in central Europe the clocks go from 03:00 back to 02:00 on
// 25 October 2026 and from 02:00 on to 03:00 on 29 March 2026 (directive
// 2000/84/EC: last Sunday of the month at 01:00 UTC). From 01:30 to 04:00 by the
// clock, 3.5 h and 1.5 h pass.
func TestHourChanges(t *testing.T) {
	for day, hours := range map[string]float64{"2026-10-25": 3.5, "2026-03-29": 1.5, "2026-11-28": 2.5} {
		j := soundJob(t, "zone: local", berlin, "2026-11-28 09:00", day+" 01:30",
			"room: 22 °C", "room: [{at: 01:30, is: 10 °C}, {at: 04:00, is: 20 °C}]")
		for share, want := range map[float64]float64{0: 10, 0.25: 12.5, 0.5: 15, 1: 20, 1.5: 20} {
			if got := roomAfter(t, j, share*hours); !(math.Abs(got-want) <= 1e-9) {
				t.Errorf("%s, %g h on: %g °C, want %g", day, share*hours, got, want)
			}
		}
		if got := j.Clock(quantity.Time(hours * 3600)).Format("15:04"); got != "04:00" {
			t.Errorf("%s: %g h after 01:30 it is %s", day, hours, got)
		}
		if got := j.Clock(quantity.Time(hours * 3600)).Sub(j.Start); got != time.Duration(hours*float64(time.Hour)) {
			t.Errorf("%s: %g h come to %v", day, hours, got)
		}
	}
}

// TestZoneLocal: local is the zone of the machine, and a job without a zone is
// local.
func TestZoneLocal(t *testing.T) {
	for _, zone := range []string{"zone: local\n", ""} {
		j := soundJob(t, "zone: local\n", zone)
		if want := time.Date(2026, 11, 28, 9, 0, 0, 0, time.Local); j.Zone != time.Local || !j.Start.Equal(want) {
			t.Errorf("zone %v, start %v, want %v", j.Zone, j.Start, want)
		}
	}
	j := soundJob(t, "zone: local", "zone: Asia/Kolkata")
	if want := time.Date(2026, 11, 28, 3, 30, 0, 0, time.UTC); !j.Start.Equal(want) { // UTC + 5:30
		t.Errorf("starts %v, want %v", j.Start.UTC(), want)
	}
}

// TestStartInEveryDress: an hour of one digit is the same hour.
func TestStartInEveryDress(t *testing.T) {
	for written, want := range map[string]string{"2026-11-28 9:05": "09:05", "2026-11-28 00:00": "00:00", "2026-02-28 23:59": "23:59"} {
		if got := soundJob(t, "2026-11-28 09:00", written).Start.Format("15:04"); got != want {
			t.Errorf("%s starts at %s", written, got)
		}
	}
	for _, written := range []string{"2026-02-29 09:00", "2026-11-28", "2026-11-28 24:00", "tomorrow"} {
		if _, err := readJob(t, "2026-11-28 09:00", written); err == nil || !strings.Contains(err.Error(), "is not a date and a time") {
			t.Errorf("%s: %v", written, err)
		}
	}
}

// TestStartShownTwice: of a start that a clock shows twice the one taken is named, and an offset
// chooses; a start that it leaps over is refused with the one that is meant.
func TestStartShownTwice(t *testing.T) {
	for written, want := range map[string]string{"02:30": "+0100", "02:30 +0200": "+0200", "02:30 +0100": "+0100", "02:30+01:00": "+0100"} {
		j := soundJob(t, "zone: local", berlin, "2026-11-28 09:00", "2026-10-25 "+written)
		if got := j.Start.Format("15:04 -0700"); got != "02:30 "+want {
			t.Errorf("%s starts at %s", written, got)
		}
		w, err := schedule.Prepare(j)
		if err != nil {
			t.Fatal(err)
		}
		other, err := schedule.Prepare(j.OnDayOf(j.Start.AddDate(0, 0, 3)))
		if err != nil {
			t.Fatal(err)
		}
		twice := func(w *schedule.Winding) bool {
			return slices.ContainsFunc(w.Warnings, func(w warning.Warning) bool { return w.Code() == schedule.TimeShownTwice{}.Code() })
		}
		if twice(w) != (written == "02:30") || twice(other) {
			t.Errorf("%s: warned %v, of another day %v", written, twice(w), twice(other))
		}
	}
	for written, fix := range map[string]string{"2026-10-25 02:30 +0300": "write 2026-10-25 02:30 +0100", "2026-11-28 09:00 +0200": "write 2026-11-28 09:00 +0100", "2026-03-29 02:30": "write 2026-03-29 03:30,"} {
		if _, err := readJob(t, "zone: local", berlin, "2026-11-28 09:00", written); err == nil || !strings.Contains(err.Error(), fix) {
			t.Errorf("%s: %v, want %s", written, err, fix)
		}
	}
}
