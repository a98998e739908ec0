package report

import (
	"fmt"
	"io"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// Logged is the JSON of start and log.
type Logged struct {
	Session string        `json:"session"`
	Event   session.Event `json:"event"`

	Plan    *session.Event `json:"plan,omitempty"`              // that log made because of the event; left out: the one before still holds
	Changes []FromPlan     `json:"changes_from_plan,omitempty"` // of Plan

	Hazards []Hazard `json:"hazards,omitempty"` // that come before any plan

	unused []int // pots that Plan has no place for
	next   int   // number of the pot that Plan mixes first

	Warned
	all []session.Event
}

// NewLogged builds the report of an event that is on the disk; all are those of its journal.
func NewLogged(folder string, e session.Event, all []session.Event, warnings []warning.Warning) *Logged {
	return &Logged{Session: folder, Event: e, Warned: NewWarned(warnings...), all: all}
}

// Text confirms the event with its number, its value and its time.
func (l *Logged) Text(w io.Writer) error {
	e := l.Event
	say(w, fmt.Sprintf("logged e%d: %s, %s", e.Seq, happenedFully(e, l.all), e.At.Format("15:04:05")), "", "  ")
	return nil
}

// StartText confirms that a session is open; next is the command that the day goes on with.
func (l *Logged) StartText(w io.Writer, next string) error {
	_, err := fmt.Fprintf(w, "logged: %s is open, %s; next: %s\n", l.Session, plural(l.Event.Layers, "layer"), next)
	return err
}

// PlanText says what is dangerous, or what came of the plan, where a new one was made.
func (l *Logged) PlanText(w io.Writer) error {
	for i := range l.Hazards {
		say(w, l.Hazards[i].Text, "", "  ")
	}
	if l.Plan != nil {
		say(w, fmt.Sprintf("logged e%d: %s", l.Plan.Seq, l.renewal()), "", "  ")
	}
	return nil
}
