package inforce

import (
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
	Problem string // the error in full
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
