package schedule

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// A Site is something whose temperature a job states; empty for resin that stands.
type Site string

// The sites of a job.
const (
	SiteRoom    Site = "room"
	SiteResin   Site = "resin" // as mixed
	SiteJacket  Site = "jacket"
	SiteMandrel Site = "mandrel"
)

// OutsideData is a temperature at which the record's cure law may not be trusted.
type OutsideData struct {
	Site    Site
	At      quantity.Temperature
	Trusted resins.Range
	Resin   string
}

// Code names the kind.
func (OutsideData) Code() string { return "outside-data" }

// VesselTooDeep is a vessel in which the resin stands deeper than in any tray or cup: one
// of its sizes is likely a slip.
type VesselTooDeep struct {
	Mass  quantity.Mass
	Depth quantity.Length
	In    resins.Container
}

// Code names the kind.
func (VesselTooDeep) Code() string { return "vessel-too-deep" }

// VesselTooShallow is a vessel in which the resin is a film that no tow could run through.
type VesselTooShallow struct {
	Mass  quantity.Mass
	Depth quantity.Length
	In    resins.Container
}

// Code names the kind.
func (VesselTooShallow) Code() string { return "vessel-too-shallow" }

// RoomBeginsLate is a course of the room that begins after the job: until then its first
// temperature is taken.
type RoomBeginsLate struct {
	Begins string // the time of day as the job writes it
	Taken  quantity.Temperature
}

// Code names the kind.
func (RoomBeginsLate) Code() string { return "room-begins-late" }

// TowDoubtful is a measured tow that the layer's geometry hardly takes.
type TowDoubtful struct {
	Layer              string
	Measured, Computed quantity.Length
}

// Code names the kind.
func (TowDoubtful) Code() string { return "measured-tow-doubtful" }

// TimeDoubtful is a measured time in which the machine hardly lays the layer's tow.
type TimeDoubtful struct {
	Layer    string
	Measured quantity.Time
	Tow      quantity.Length
	Machine  quantity.Speed
}

// Code names the kind.
func (TimeDoubtful) Code() string { return "measured-time-doubtful" }

// LayerGelsUnderWay is a layer whose first resin gels before its last is laid: its end is
// wound onto what has set.
type LayerGelsUnderWay struct {
	Layer   string
	Takes   quantity.Time
	Gels    quantity.Time // from when it is laid
	Mandrel quantity.Temperature
}

// Code names the kind.
func (LayerGelsUnderWay) Code() string { return "layer-gels-under-way" }

// TowTooFast is a tow that runs faster than any resin bath wets.
type TowTooFast struct{ Speed, Fastest quantity.Speed }

// Code names the kind.
func (TowTooFast) Code() string { return "tow-too-fast" }

// A TowBand is a band and the tows that make it.
type TowBand struct {
	Width quantity.Length
	Tows  int
	Tex   quantity.LinearDensity // of one
}

// PlyDoubtful is a band that lies thinner or thicker than plies do.
type PlyDoubtful struct {
	Band      TowBand
	Thickness quantity.Length
	Fraction  resins.FibreFraction
}

// Code names the kind.
func (PlyDoubtful) Code() string { return "ply-thickness-doubtful" }

// BandTooWide is a band that its tows hardly make.
type BandTooWide struct {
	Band         TowBand
	Each, Widest quantity.Length // of one tow
}

// Code names the kind.
func (BandTooWide) Code() string { return "band-too-wide" }

// FibreFractionUnusual is a fibre fraction that wet winding hardly gives.
type FibreFractionUnusual struct {
	ByMass, Lowest, Highest quantity.Fraction
	Fibre                   string // carbon or glass
}

// Code names the kind.
func (FibreFractionUnusual) Code() string { return "fibre-fraction-unusual" }

// LessonsOfOtherResin are lessons whose reactivity is not this resin's: it is left out.
type LessonsOfOtherResin struct{ File, Resin, Record string }

// Code names the kind.
func (LessonsOfOtherResin) Code() string { return "lessons-of-other-resin" }

// LessonsUsed tells what finished sessions changed in a job. A lesson that was not used is
// the zero value.
type LessonsUsed struct {
	PickUp, LeftInCup, Minutes, Reactivity Lesson
	OfJob                                  struct { // what the job itself says
		PickUp    float64
		LeftInCup quantity.Fraction
	}
}

// Code names the kind.
func (LessonsUsed) Code() string { return "lessons-used" }

// LeftOut is what a job does not say and its plan depends on, with what is taken instead;
// zero where the job says it.
type LeftOut struct {
	Ends                         bool // no fibre beside the cylinder
	Limits                       bool // all of them
	BathViscosity, LaidViscosity quantity.Viscosity
	BathTemperature              quantity.Temperature
	Reserve                      quantity.Time
}

// Code names the kind.
func (LeftOut) Code() string { return "job-leaves-out" }

// TooThickWhenMixed is resin that can be used only when it has warmed and thinned.
type TooThickWhenMixed struct {
	ThinsAfter quantity.Time
	ThinAt     quantity.Temperature
}

// Code names the kind.
func (TooThickWhenMixed) Code() string { return "too-thick-when-mixed" }

// PotEndsInCup is a pot that does not last in its cup until it is poured, with the reserve.
type PotEndsInCup struct {
	Pot                    quantity.Mass
	Begun                  time.Time
	Lasts, Stands, Reserve quantity.Time
}

// Code names the kind.
func (PotEndsInCup) Code() string { return "pot-ends-in-cup" }

// MorePotsEndInCups counts pots of the same fate that are not told one by one.
type MorePotsEndInCups struct{ Pots int }

// Code names the kind.
func (MorePotsEndInCups) Code() string { return "more-pots-end-in-cups" }

// TimeShownTwice stands where a clock shows a time twice, as when summer ends, and it was written
// without what tells them apart.
type TimeShownTwice struct{ Taken, Other time.Time }

// Code names the kind.
func (TimeShownTwice) Code() string { return "time-shown-twice" }

// Warnings has one of each kind.
var Warnings = []warning.Warning{
	OutsideData{},
	VesselTooDeep{},
	VesselTooShallow{},
	RoomBeginsLate{},
	TowDoubtful{},
	TimeDoubtful{},
	LayerGelsUnderWay{},
	TowTooFast{},
	PlyDoubtful{},
	BandTooWide{},
	FibreFractionUnusual{},
	LessonsOfOtherResin{},
	LessonsUsed{},
	LeftOut{},
	TooThickWhenMixed{},
	PotEndsInCup{},
	MorePotsEndInCups{},
	PotGelsInMixing{},
	WarmerThanLimit{},
	NeverThins{},
	TooThickOnMandrel{},
	TooHotWhenMixed{},
	FreshBathTooShort{},
	TimeShownTwice{},
}
