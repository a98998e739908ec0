package advice

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session/replay"
)

// BathOffRatio stands where a pot that was off its ratio is in the bath: what is wound from it
// cures badly.
type BathOffRatio struct {
	Pot   int     // its number
	Off   float64 // of its hardener, relative
	Wound bool    // all layers are: there is no more to be saved
}

// BathRanDry stands where the layers took more resin than there was by what was logged: a pot
// was left out, or a tow takes less than the job says, and no figure of the bath holds.
type BathRanDry struct{ At, Day time.Time }

// BathOverfull stands where the bath holds more than the job says that it can.
type BathOverfull struct{ Mass, Highest quantity.Mass }

// BathDiluted stands where a pot that was off its ratio is in the bath, and what is in it is within
// the job's tolerance by now.
type BathDiluted struct {
	Pot int     // its number
	Off float64 // of the pot
}

// LayersOffRatio stands where layers were wound from a bath off its ratio: they cure otherwise than
// is computed.
type LayersOffRatio struct {
	Layers []int   // from 1
	Off    float64 // the greatest
}

// CupOffRatio stands where a pot in its cup is off its ratio, and is not to be poured however
// fresh it is.
type CupOffRatio struct {
	Pot   int // its number
	Event int // in which it was mixed
	Off   float64
}

// CupPastUse stands where a pot in its cup is too old to be poured.
type CupPastUse struct {
	Pot int  // its number
	Set bool // it has gelled
}

// LayerOverdue stands where the done of a layer has probably been forgotten: all after it is
// reckoned with a layer that is still wound.
type LayerOverdue struct {
	Layer int
	Ended time.Time // when it should have
	Now   time.Time
}

// ReadingUnexplained stands where a reading agrees with no bath that the record allows: it is
// left out.
type ReadingUnexplained struct {
	Reading   replay.Reading
	Low, High float64 // what 8 in 10 baths had: K, or Pa·s
	At, Day   time.Time
	ColdPots  bool // a temperature, and the pots' was not read: that may be why
	Over      bool // the day is: it cannot be read again
	Believed  bool // it is the last and hotter than what is reckoned: it is taken as the bath's temperature
}

// MoreUnexplained are as many more of them.
type MoreUnexplained struct{ Readings int }

// ReadingPastLimit stands where a reading says that the bath cannot be wound from, whatever is
// reckoned.
type ReadingPastLimit struct{ Reading int }

// FewBathsFit stands where the readings fit so few of the baths tried that a share of one in
// ten means little.
type FewBathsFit struct{ Tried int }

// PaceOff stands where layers take longer or shorter than planned, which what comes is reckoned
// with.
type PaceOff struct{ Pace float64 }

// BathThinning stands where a bath is too thick from mixing, and says for how long.
type BathThinning struct{ In quantity.Time }

// The codes.
func (BathOffRatio) Code() string       { return "bath-off-ratio" }
func (BathRanDry) Code() string         { return "bath-ran-dry" }
func (BathOverfull) Code() string       { return "bath-overfull" }
func (BathDiluted) Code() string        { return "bath-diluted" }
func (LayersOffRatio) Code() string     { return "layers-off-ratio" }
func (CupOffRatio) Code() string        { return "cup-off-ratio" }
func (CupPastUse) Code() string         { return "cup-past-use" }
func (LayerOverdue) Code() string       { return "layer-overdue" }
func (ReadingUnexplained) Code() string { return "reading-unexplained" }
func (MoreUnexplained) Code() string    { return "more-readings-unexplained" }
func (ReadingPastLimit) Code() string   { return "reading-past-limit" }
func (FewBathsFit) Code() string        { return "few-baths-fit-readings" }
func (PaceOff) Code() string            { return "pace-off-plan" }
func (BathThinning) Code() string       { return "bath-too-thick-yet" }

// Warnings has one of each kind.
var Warnings = []warning.Warning{
	BathOffRatio{},
	BathRanDry{},
	BathOverfull{},
	BathDiluted{},
	LayersOffRatio{},
	CupOffRatio{},
	CupPastUse{},
	LayerOverdue{},
	ReadingUnexplained{},
	MoreUnexplained{},
	ReadingPastLimit{},
	FewBathsFit{},
	PaceOff{},
	BathThinning{},
}
