package report

import (
	"fmt"
	"io"

	"potlife/schedule/session"
)

// Logged is the JSON of start and log.
type Logged struct {
	Session string        `json:"session"`
	Event   session.Event `json:"event"`

	Warnings []string `json:"warnings"`
}

// NewLogged builds the report of an event that is on the disk.
func NewLogged(folder string, e session.Event, warnings []string) *Logged {
	return &Logged{Session: folder, Event: e, Warnings: notNull(warnings)}
}

// Text confirms the event with its number and its time.
func (l *Logged) Text(w io.Writer) error {
	e := l.Event
	what := string(e.Kind)
	switch e.Kind {
	case session.Begin, session.Done:
		what = fmt.Sprintf("%s layer %d", e.Kind, e.Layer)
	case session.Poured:
		what = fmt.Sprintf("poured the pot of event %d", e.Pot)
	case session.Undo:
		what = fmt.Sprintf("undo of event %d", e.Of)
	case session.FlowCup:
		what = fmt.Sprintf("%s, %.0f mPa·s", e.Kind, e.IsPaS*1e3)
	}
	_, err := fmt.Fprintf(w, "logged %d: %s, %s\n", e.Seq, what, e.At.Format("15:04:05"))
	return err
}
