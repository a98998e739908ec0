package report

import (
	"fmt"
	"io"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// Journal is the JSON of log without an event: what was logged, in the order of its numbers.
type Journal struct {
	Session string         `json:"session"`
	Events  []JournalEvent `json:"events"`
	Warned
	zone *time.Location
}

// JournalEvent is an event, what it says, and the undo that took it back; null for one that
// stands.
type JournalEvent struct {
	session.Event
	What        string `json:"what"`
	TakenBackBy *int   `json:"taken_back_by"`
}

// NewJournal builds the list of the events of a session, times on the clock of its job.
func NewJournal(folder string, zone *time.Location, all []session.Event, warnings []warning.Warning) *Journal {
	j := &Journal{Session: folder, Events: make([]JournalEvent, len(all)), Warned: NewWarned(warnings...), zone: zone}
	undone := session.TakenBack(all)
	for i, e := range all {
		j.Events[i] = JournalEvent{Event: e, What: happenedFully(e, all)}
		if by, found := undone[e.Seq]; found {
			j.Events[i].TakenBackBy = &by
		}
	}
	return j
}

// eventNumber is how an event is called.
func eventNumber(seq int) string { return "e" + number(seq) }

// longestNote is what a line of the list has room for.
const longestNote = 66

// Text lists the events by number.
func (j *Journal) Text(w io.Writer) error {
	fmt.Fprintf(w, "%s\n", j.Session)
	t := &table{head: []string{"", "time", "what"}, left: []bool{false, false, true}}
	for _, e := range j.Events {
		what := shorten(e.What, longestNote)
		if e.TakenBackBy != nil {
			what = fmt.Sprintf("%s (taken back by e%d)", shorten(e.What, longestNote-20), *e.TakenBackBy)
		}
		t.add(eventNumber(e.Seq), clock(e.At.In(j.zone), j.Events[0].At.In(j.zone)), what)
	}
	return t.write(w)
}
