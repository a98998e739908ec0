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
	for _, r := range fewRooms(w, active) {
		if !r.room {
			unchanged = max(unchanged, r.at)
			continue
		}
		readings++
		if n := len(at); unchanged > at[n-1] && unchanged < r.at {
			at, off = append(at, unchanged), append(off, off[n-1])
		}
		if n := len(at); n > 0 && at[n-1] == r.at {
			off[n-1] = r.off // the last word of a second counts
			continue
		}
		at, off = append(at, r.at), append(off, r.off)
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

// A roomReading is what a thermometer in the room differs by from the job's course, or that somebody
// read that in the bath and had nothing to say of the room.
type roomReading struct {
	at   quantity.Time
	off  quantity.Temperature
	room bool
}

// fewRooms are the readings of a day that tell of the room. Where they are many, those of a window are one.
func fewRooms(w *schedule.Winding, active []session.Event) []roomReading {
	var list []roomReading
	rooms := 0
	for _, e := range active {
		switch r := (roomReading{at: elapsed(w.Job, e.At), room: e.Kind == session.Room}); {
		case r.room:
			r.off = quantity.Celsius(*e.IsC) - w.Task.Room.At(r.at)
			list = append(list, r)
			rooms++
		case e.Kind == session.BathTemp:
			if n := len(list); n > 0 && !list[n-1].room {
				list[n-1].at = max(list[n-1].at, r.at) // only the last of them counts
				continue
			}
			list = append(list, r)
		}
	}
	if rooms <= mostWeighed {
		return list
	}
	last := len(list) - 1
	for !list[last].room {
		last--
	}
	width := min(max((list[last].at-list[0].at)/mostWeighed, narrowest), widest)
	var few []roomReading
	var sum roomReading
	began, n := quantity.Time(0), 0
	end := func() {
		if n > 0 {
			mean := 1 / float64(n)
			few = append(few, roomReading{at: sum.at * quantity.Time(mean), off: sum.off * quantity.Temperature(mean), room: true})
		}
		sum, n = roomReading{}, 0
	}
	for i, r := range list {
		if !r.room { // where readings of the room are so many, it says nothing that they do not
			continue
		}
		if i == last || r.at >= began+width {
			end()
			began = r.at
		}
		sum.at, sum.off, n = sum.at+r.at, sum.off+r.off, n+1
	}
	end()
	return few
}
