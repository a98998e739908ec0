package inforce

import (
	"errors"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

// NoPlanLeft stands where what was logged makes the plan in force break a limit and no other
// plan keeps them from here: the old one stays, since there is none to replace it, and must not
// be followed blindly.
type NoPlanLeft struct {
	Why  session.Why // of the plan in force
	From time.Time   // its own
}

// Code names it.
func (NoPlanLeft) Code() string { return "no-plan-left" }

// NotAsked stands where an event is logged and whether the plan in force still holds could not
// be worked out, or the new one not be written: the screens then say what they find.
type NotAsked struct {
	Event   int    // that is logged
	Problem string // as in the error
}

// CannotAsk is that warning. What an error of the journal says of what was not written, the new
// plan, is left out: beside the event it would be read as about the event, and that would be
// logged twice.
func CannotAsk(event int, err error) NotAsked {
	var failed *session.Failed
	if errors.As(err, &failed) {
		return NotAsked{Event: event, Problem: failed.Problem()}
	}
	return NotAsked{Event: event, Problem: err.Error()}
}

// Code names it.
func (NotAsked) Code() string { return "plan-not-asked" }

// Overtaken stands where others logged again and again while a new plan was made: it was not
// written, since it would not know of theirs.
type Overtaken struct{}

// Code names it.
func (Overtaken) Code() string { return "plan-overtaken" }

// Warnings are one of each.
var Warnings = []warning.Warning{NoPlanLeft{}, NotAsked{}, Overtaken{}}
