package session

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// LineCut stands where the last line of the journal was cut short while it was written: the
// event counts for nothing, and whoever meant to log it must log it again.
type LineCut struct {
	Bytes int
	Event int    // the number that it would have had
	Kept  string // the file that has it now; empty: it is still in the journal
}

// NotCounted stands where the number of acknowledged events is not kept: that lines are cut off
// the end of the journal would not be noticed.
type NotCounted struct{}

// JobChanged stands where the file of the job is no longer what the session copied: the day
// goes by the copy, so that it can be replayed.
type JobChanged struct{ File string }

// CannotLog stands where a journal can be read and not written.
type CannotLog struct{ Why error }

// PotOffRatio stands where a pot was weighed beyond the job's tolerance: it cures badly.
type PotOffRatio struct {
	Off     float64 // of its hardener, relative
	Mix     resins.Mix
	Swapped bool // the other way round it would be within the tolerance
}

// PotTooLarge stands where a pot is beyond the job's largest: it may run away in its cup.
type PotTooLarge struct{ Mass, Largest quantity.Mass }

// PotTooSmall stands where a pot is below half of the job's smallest: most probably a slip.
type PotTooSmall struct{ Mass, Smallest quantity.Mass }

// ResumeMissing stands where a layer began or ended while the machine was paused: when it ran
// again is not known.
type ResumeMissing struct{}

// LayersMissing stands where a session is finished before its last layer.
type LayersMissing struct{ Done, Of int }

// BathLeft stands where a session is finished with resin in the bath that nobody weighed or took
// away.
type BathLeft struct{}

// PotsLeft stands where a session is finished with pots in their cups, which can run away.
type PotsLeft struct{ Pots int }

// MixedTwice stands where two pots are alike and too close to each other: one may have been
// logged by two people.
type MixedTwice struct{ Event int }

// PouredTwice is the same of two pots poured in one minute.
type PouredTwice struct {
	Event int
	Pot   int // its number
}

// AtEvent is a warning of an event as it is told later, with the whole day. Its code is that
// of the warning.
type AtEvent struct {
	Event   int
	At, Day time.Time // when it happened, and the day that its time of day is counted from
	warning.Warning
}

// An AsRecorded is a warning of calibrating to the label that a journal keeps in a form which
// this version cannot take apart: a sentence of before label_warnings were written, or a code
// of a later version. It is told as it stands, since replay does not calibrate again.
type AsRecorded struct {
	Sentence string // empty: Kept and Values have it
	Kept     string // the code
	Values   string // JSON
}

// The codes.
func (LineCut) Code() string       { return "journal-line-cut" }
func (NotCounted) Code() string    { return "journal-not-counted" }
func (JobChanged) Code() string    { return "job-changed-since-start" }
func (CannotLog) Code() string     { return "journal-read-only" }
func (PotOffRatio) Code() string   { return "pot-off-ratio" }
func (PotTooLarge) Code() string   { return "pot-above-largest" }
func (PotTooSmall) Code() string   { return "pot-below-smallest" }
func (ResumeMissing) Code() string { return "resume-not-logged" }
func (LayersMissing) Code() string { return "finished-before-last-layer" }
func (BathLeft) Code() string      { return "finished-with-a-full-bath" }
func (PotsLeft) Code() string      { return "finished-with-pots-in-cups" }
func (MixedTwice) Code() string    { return "mixed-logged-twice" }
func (PouredTwice) Code() string   { return "poured-logged-twice" }
func (AsRecorded) Code() string    { return "label-as-recorded" }

// Warnings has one of each kind.
var Warnings = []warning.Warning{
	LineCut{},
	NotCounted{},
	JobChanged{},
	CannotLog{},
	PotOffRatio{},
	PotTooLarge{},
	PotTooSmall{},
	ResumeMissing{},
	LayersMissing{},
	BathLeft{},
	PotsLeft{},
	MixedTwice{},
	PouredTwice{},
	ClocksDiffer{},
	CopyCut{},
	LineLost{},
	EventLeftOut{},
	EventsGone{},
	LotExpired{},
	AsRecorded{Sentence: "the label names no container"},
}
