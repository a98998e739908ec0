package schedule

import (
	"math"
	"time"
)

// OnDayOf returns the job on another day: its start keeps its time of day and moves by
// whole days to the one nearest to t, and the courses of room and jacket with it.
func (j *Job) OnDayOf(t time.Time) *Job {
	moved := *j
	local := t.In(j.Start.Location())
	days := int(math.Round(local.Sub(j.Start).Hours() / 24))
	moved.Start = j.Start.AddDate(0, 0, days)
	moved.startTwice = nil // a session has a start of its own
	return &moved
}
