package replay

import (
	"slices"
	"time"

	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/session"
)

// A Journal is a session read for replay: its events, and the winding of its copies of job
// and resin, on the day of the session.
type Journal struct {
	Winding *schedule.Winding
	Events  []session.Event
	Started time.Time
	Ended   time.Time // of its finish; zero: it is open
}

// Read reads a session. The errors are those of the job, the record and the journal.
func Read(s *session.Session) (*Journal, error) {
	job, err := s.Job()
	if err != nil {
		return nil, err
	}
	record, err := s.Record()
	if err != nil {
		return nil, err
	}
	learned, err := s.Learned()
	if err != nil {
		return nil, err
	}
	events, err := s.Events()
	if err != nil {
		return nil, err
	}
	day, err := session.Through(events)
	if err != nil {
		return nil, err
	}
	winding, err := prepare(job.OnDayOf(day.Started), record, learned, events)
	if err != nil {
		return nil, err
	}
	j := &Journal{Winding: winding, Events: events, Started: day.Started}
	for _, e := range session.Active(events) {
		if e.Kind == session.Finish {
			j.Ended = e.At
		}
	}
	return j, nil
}

// prepare is the winding of a session's copies. Where the copy of the resin is calibrated
// already, the label is not applied again; its warnings are told as they were.
func prepare(job *schedule.Job, record *resins.Record, learned *schedule.Learned, events []session.Event) (*schedule.Winding, error) {
	i := slices.IndexFunc(events, func(e session.Event) bool { return e.Kind == session.Started })
	if i < 0 || !events[i].Resolved {
		return schedule.PrepareWith(job, record, learned)
	}
	resolved := *job
	resolved.HasLabel = false
	w, err := schedule.PrepareWith(&resolved, record, learned)
	if err != nil {
		return nil, err
	}
	w.Label = events[i].OfLabel()
	w.Warnings = slices.Concat(w.Label, w.Warnings)
	return w, nil
}

// Script is the day up to a moment, or, with a pause, what comes of it if the machine
// stands from then on for that long.
func (j *Journal) Script(now time.Time, pause time.Duration) (*Script, error) {
	events := j.Events
	if pause > 0 {
		events = withPause(events, now)
		now = now.Add(pause)
	}
	return Compile(j.Winding, events, now)
}

// withPause adds a pause at a moment to what was logged by then, unless the machine stands
// already or the session is finished.
func withPause(events []session.Event, now time.Time) []session.Event {
	until := before(events, now)
	day, err := session.Through(until)
	if err != nil || day.Paused || day.Finished {
		return until
	}
	pause := session.Event{Seq: len(events) + 1, At: now, Logged: now, Kind: session.Pause, Text: "what if"}
	return append(until, pause)
}
