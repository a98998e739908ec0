package batches

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Promise is something that a plan must keep, see the package comment.
type Promise string

// The promises that the referee checks.
const (
	BeginSaid     Promise = "begin-said" // what becomes of the bath before the first unit
	AllWound      Promise = "all-wound"
	PoursReached  Promise = "pours-reached"
	PotInBounds   Promise = "pot-in-bounds"
	PotOnScale    Promise = "pot-on-scale"
	PotMixed      Promise = "pot-mixed" // before it is poured
	MixersFree    Promise = "mixers-free"
	CupStands     Promise = "cup-stands"
	CupYoung      Promise = "cup-young"
	HeelYoung     Promise = "heel-young"
	BathAlive     Promise = "bath-alive" // that the plan begins with
	IntoFits      Promise = "into-fits"  // the bath is filled, or empty, as the pour needs it
	PoursInOrder  Promise = "pours-in-order"
	TimeToPour    Promise = "time-to-pour"
	TimeToWipe    Promise = "time-to-wipe"
	WithinHighest Promise = "within-highest"
	AboveLowest   Promise = "above-lowest"
	ThinEnough    Promise = "thin-enough" // to be wound from
	WithinLimits  Promise = "within-limits"
	CleanInTime   Promise = "clean-in-time" // before what has stuck gels
	ReserveStands Promise = "reserve-stands"
	PauseKept     Promise = "pause-kept"
	UnitTime      Promise = "unit-time"
	CountsAgree   Promise = "counts-agree" // of changes, layers on gelled ones and pots
	WasteAgrees   Promise = "waste-agrees"
)

// Broken is a promise that does not hold. Got and Want are the figures that differ, in SI,
// where there are such.
type Broken struct {
	Promise   Promise
	Unit      int // wound, or about to be
	Pot       int // its Seq, of a cup that stands
	At        quantity.Time
	Limit     vessel.Limit
	Got, Want float64
}
