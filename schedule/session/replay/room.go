package replay

import (
	"slices"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/session"
)

// roomAsRead is the room of the day: the job's course plus the difference to the readings,
// linear from when it was last known: by a reading, at the start of the session, or when somebody
// read the bath's thermometer and had nothing to say of the room.
func roomAsRead(w *schedule.Winding, active []session.Event, started time.Time) vessel.Series {
	planned := w.Task.Room
	at, off := []quantity.Time{elapsed(w.Job, started)}, []quantity.Temperature{0}
	readings := 0
	unchanged := at[0] // the last moment at which nobody said that the room had changed
	for _, e := range active {
		t := elapsed(w.Job, e.At)
		if e.Kind == session.BathTemp {
			unchanged = max(unchanged, t)
		}
		if e.Kind != session.Room {
			continue
		}
		readings++
		if n := len(at); unchanged > at[n-1] && unchanged < t {
			at, off = append(at, unchanged), append(off, off[n-1])
		}
		difference := quantity.Celsius(*e.IsC) - planned.At(t)
		if n := len(at); n > 0 && at[n-1] == t {
			off[n-1] = difference // the last word of a second counts
			continue
		}
		at, off = append(at, t), append(off, difference)
	}
	if readings == 0 {
		return planned
	}
	// A series cannot hold differences, which may be negative: they are kept on a base.
	base := quantity.Celsius(0)
	for i := range off {
		off[i] += base
	}
	course, err := vessel.NewSeries(at, off)
	if err != nil {
		return planned // a difference beyond absolute zero cannot be logged
	}
	knots := append(planned.Times(), at...)
	slices.Sort(knots)
	knots = slices.Compact(knots)
	is := make([]quantity.Temperature, len(knots))
	for i, t := range knots {
		is[i] = planned.At(t) + course.At(t) - base
	}
	sum, err := vessel.NewSeries(knots, is)
	if err != nil {
		return planned
	}
	return sum
}
