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
	Ended   time.Time // of its finish, and of what was said of its resin after that; zero: it is open
	// ResinLeft tells that a pot or the bath holds resin of which nobody has said what became.
	ResinLeft bool
	resin     bool // there is any, weighed or not
	// Morning is the plan of a session that kept none, as its start would have; nil: it was
	// not derived, or there is none.
	Morning *session.Plan
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
	day, err := s.DayOf(events)
	if err != nil {
		return nil, err
	}
	winding, err := prepare(job.OnDayOf(day.Started), record, learned, events)
	if err != nil {
		return nil, err
	}
	j := &Journal{Winding: winding, Events: events, Started: day.Started, ResinLeft: day.ResinLeft(), resin: day.Resin()}
	for _, e := range session.Active(events) {
		after := e.Kind == session.LeftOver || e.Kind == session.Changed || e.Kind.Removes()
		if e.Kind == session.Finish || after && !j.Ended.IsZero() {
			j.Ended = e.At
		}
	}
	return j, nil
}

// sets is by when resin has set and is cold, whatever it was: two days.
const sets = 48 * time.Hour

// Now is the moment to answer for at a moment: a session that is finished is asked about as it
// was then, or as far as resin is left of it that may still warm itself.
func (j *Journal) Now(now time.Time) time.Time {
	switch last := j.Ended.Add(sets); {
	case j.Ended.IsZero():
		return now
	case !j.resin || now.Before(j.Ended):
		return j.Ended
	case !now.After(last):
		return now
	case j.ResinLeft:
		return last
	}
	return j.Ended
}

// AsOf is the day at a moment, of which a person has said when it is (asked) or which is now by a
// clock, and a pause after it. Events may lie ahead of that clock: the day is as of the last of
// them then, unless a moment after it was asked about.
func (j *Journal) AsOf(when time.Time, asked bool, clock time.Time, pause time.Duration) (*Script, error) {
	clocks, differ := session.Differ(j.Events, clock)
	differ = differ && (j.Ended.IsZero() || j.ResinLeft) // else the day is over whatever the clock says
	blind := differ && !(asked && !when.Before(clocks.Last))
	switch {
	case blind:
		when = clocks.Last
	case !asked && j.Ended.IsZero() && clocks.Last.After(when): // by no more than clocks may differ
		when = clocks.Last
	}
	s, err := j.Script(when.In(j.Winding.Job.Zone), pause)
	if err == nil && differ {
		s.Clocks, s.Blind = clocks, blind
	}
	return s, err
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

// AtStart is the plan of the morning, as it was kept or derived; nil: there is none.
func (j *Journal) AtStart() *session.Plan {
	for _, e := range j.Events {
		if e.Kind == session.Started && e.Plan != nil {
			return e.Plan
		}
	}
	return j.Morning
}

// Fresh is the winding of a session that is about to start, as [Read] reads it once it has.
func Fresh(job *schedule.Job, copies session.Copies, at time.Time) (*schedule.Winding, error) {
	record, err := resins.Read(session.ResinCopy, copies.Resin)
	if err != nil {
		return nil, err
	}
	var learned *schedule.Learned
	if copies.Learned != nil {
		if learned, err = schedule.ReadLearned(session.LearnedCopy, copies.Learned); err != nil {
			return nil, err
		}
	}
	first := session.Event{Kind: session.Started, Resolved: copies.Resolved}
	return prepare(job.OnDayOf(at), record, learned, []session.Event{first})
}

// Script is the day up to a moment, or, with a pause, what comes of it if the machine
// stands from then on for that long.
func (j *Journal) Script(now time.Time, pause time.Duration) (*Script, error) {
	events := j.Events
	if pause > 0 {
		events = withPause(events, now)
		now = now.Add(pause)
	}
	s, err := Compile(j.Winding, events, now)
	if err == nil && s.Plan.Plan == nil {
		s.Plan.Plan = j.Morning
	}
	return s, err
}

// KeepsPlan tells whether the session kept the plan of its morning, or that there is none.
func (j *Journal) KeepsPlan() bool {
	return slices.ContainsFunc(j.Events, func(e session.Event) bool { return e.Kind == session.Started && (e.Plan != nil || e.NoPlan) })
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
