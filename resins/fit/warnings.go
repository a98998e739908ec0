package fit

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// A ContainerAssumed is a statement of a pot life that names no container: a cup as deep as
// wide is assumed, and in a flatter one the same resin lasts longer.
type ContainerAssumed struct {
	Number    int // of the statement, from 1
	Statement Statement
}

// Code names the kind.
func (ContainerAssumed) Code() string { return "statement-without-container" }

// An OutsideRange is a statement of a test at a temperature at which the nearest system does
// not claim its cure law, so that what is learned from it may not hold elsewhere.
type OutsideRange struct {
	Number    int // of the statement, from 1
	Statement Statement
	System    string
	Valid     resins.Range
}

// Code names the kind.
func (OutsideRange) Code() string { return "statement-outside-range" }

// An UnlikeRatio is a mix that takes far more or less hardener than the system it is said to
// be like, which is the slip of a wrong column.
type UnlikeRatio struct {
	System       string
	Given, Usual float64 // g of hardener to 100 g of resin
	ByVolume     bool    // it was given so
}

// Code names the kind.
func (UnlikeRatio) Code() string { return "ratio-unlike-system" }

// FlowTimesOutside are readings that a flow cup cannot give; the log goes on without them.
type FlowTimesOutside struct {
	File         string
	Outside, All int
	Cup          string
}

// Code names the kind.
func (FlowTimesOutside) Code() string { return "flow-times-outside-cup" }

// A NotSettled is a fit that was given up before it stood still, as it is where statements do
// not go together: its record is not the best one.
type NotSettled struct{ Steps int }

// Code names the kind.
func (NotSettled) Code() string { return "fit-not-settled" }

// A FarFromSystem is a fit that moved the rate or the viscosity by more than the nearest
// system claims to be good for: it may be another resin.
type FarFromSystem struct {
	What   Moves // MovesRate or MovesViscosity
	Factor float64
	System string
	Claims float64 // the system's own spread
}

// Code names the kind.
func (FarFromSystem) Code() string { return "fit-far-from-system" }

// A MissedStatement is one that the new record does not keep to.
type MissedStatement struct{ Miss }

// Code names the kind.
func (MissedStatement) Code() string { return "statement-missed" }

// A LongerThanStated is a [MissedStatement] on the unsafe side: the new record promises a
// longer time than was stated, and whoever trusts it is late.
type LongerThanStated struct{ Miss }

// Code names the kind.
func (LongerThanStated) Code() string { return "longer-than-stated" }

// Code names the kind.
func (Contradiction) Code() string { return "statements-contradict" }

// An OpenWater is a cooling test without a foil on the water: it also evaporates, so that the
// losses are too high for resin.
type OpenWater struct{}

// Code names the kind.
func (OpenWater) Code() string { return "cooling-water-open" }

// A NotToldApart is a set of cooling tests that tell only what surface and wall lose together.
type NotToldApart struct{}

// Code names the kind.
func (NotToldApart) Code() string { return "cooling-losses-not-told-apart" }

// An UnevenCooling is water that does not cool as in a room of one temperature.
type UnevenCooling struct {
	Residual quantity.TemperatureDifference // root mean square
}

// Code names the kind.
func (UnevenCooling) Code() string { return "cooling-uneven" }

// A TooWarmWater is a cooling test that begins so warm that the vessel loses more than it
// does with resin in it.
type TooWarmWater struct {
	Start, Limit quantity.Temperature
}

// Code names the kind.
func (TooWarmWater) Code() string { return "cooling-water-too-warm" }

// Warnings holds one of each kind that this package finds.
var Warnings = []warning.Warning{
	LabelWithoutViscosity{},
	LabelWithoutPotLife{},
	LabelWithoutContainer{},
	FarPotLife{},
	FarViscosity{},
	ContainerAssumed{},
	OutsideRange{},
	UnlikeRatio{},
	FlowTimesOutside{},
	NotSettled{},
	FarFromSystem{What: MovesRate},
	MissedStatement{},
	LongerThanStated{},
	Contradiction{},
	MoreContradictions{},
	OpenWater{},
	NotToldApart{},
	UnevenCooling{},
	TooWarmWater{},
	LinesPassedOver{},
	WithoutTemperature{},
	SameTime{},
	ZeroIsMixing{},
	SecondTime{},
	RoomColumn{},
	CountColumn{},
	NoHeader{},
	MinutesAndSeconds{},
	TimeOfDay{},
	UnitOfTimes{},
	UnitOfTemperatures{},
}
