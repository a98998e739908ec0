package learning

import (
	"potlife/kinetics/warning"
	"potlife/schedule"
)

// PickUpNotLearned stands where the pick-up is in no session: the bath's rest was not
// weighed, nor the part.
type PickUpNotLearned struct{}

// Code names the kind.
func (PickUpNotLearned) Code() string { return "pick-up-not-learned" }

// ReactivityNotLearned stands where the readings of no session say more of the hardener
// than its record.
type ReactivityNotLearned struct{}

// Code names the kind.
func (ReactivityNotLearned) Code() string { return "reactivity-not-learned" }

// MinutesNotLearned stands where no session has the begin and the end of a layer.
type MinutesNotLearned struct{}

// Code names the kind.
func (MinutesNotLearned) Code() string { return "minutes-not-learned" }

// BalanceRefuted stands where the weight of a part refutes what was mixed and left over in
// its session: the balance teaches nothing.
type BalanceRefuted struct{ Session string }

// Code names the kind.
func (BalanceRefuted) Code() string { return "balance-refuted" }

// Refuted are the sessions whose balance teaches nothing.
func Refuted(sessions []*Session) []warning.Warning {
	var list []warning.Warning
	for _, s := range sessions {
		if s.Refuted {
			list = append(list, BalanceRefuted{s.Folder})
		}
	}
	return list
}

// Lacking are the lessons that sessions should have given and did not. What stays in cups is
// none of them: a job has a usual figure for it.
func Lacking(l *schedule.Learned) []warning.Warning {
	var list []warning.Warning
	for _, figure := range []struct {
		is      schedule.Lesson
		lacking warning.Warning
	}{{l.PickUp, PickUpNotLearned{}}, {l.Reactivity, ReactivityNotLearned{}}, {l.Minutes, MinutesNotLearned{}}} {
		if !figure.is.Known() {
			list = append(list, figure.lacking)
		}
	}
	return list
}

// Warnings has one of each kind that this package finds.
var Warnings = []warning.Warning{PickUpNotLearned{}, ReactivityNotLearned{}, MinutesNotLearned{}, BalanceRefuted{"strut.session"}}
