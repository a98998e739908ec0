package weighing

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// A Disagreement is two routes that differ by more than twice the uncertainty of
// their difference, or a result below zero by as much that cannot be negative: an
// input is wrong, and so may be whatever rests on it.
type Disagreement struct {
	A, B       Route // B is empty for a result that cannot be negative
	Of         Figure
	Difference float64 // A less B, in SI
	U          float64 // standard uncertainty of the difference
}

// Code tells both kinds apart.
func (d Disagreement) Code() string {
	if d.B == "" {
		return "weighing-below-zero"
	}
	return "weighing-routes-disagree"
}

// OneInputExplains stands where one wrong input would reconcile all routes.
type OneInputExplains struct {
	Best   []Suspect // those that explain it best, alike
	Others int       // inputs that would do with a larger change: only a third route tells which
}

// Code names the kind.
func (OneInputExplains) Code() string { return "weighing-one-input-explains" }

// NoInputExplains stands where routes disagree and no single input would reconcile them.
type NoInputExplains struct{}

// Code names the kind.
func (NoInputExplains) Code() string { return "weighing-no-input-explains" }

// VoidsBelowZero stands for negative voids, within their uncertainty or beyond it.
type VoidsBelowZero struct{ Voids quantity.Fraction }

// Code names the kind.
func (VoidsBelowZero) Code() string { return "weighing-voids-below-zero" }

// MixedNotWeighed stands where resin was weighed off the part, but not what was mixed: it
// cannot be balanced.
type MixedNotWeighed struct{}

// Code names the kind.
func (MixedNotWeighed) Code() string { return "weighing-mixed-not-weighed" }

// VoidsNeedDensities stands where a piece has a density, but its fibre or resin has none.
type VoidsNeedDensities struct{}

// Code names the kind.
func (VoidsNeedDensities) Code() string { return "weighing-voids-need-densities" }

// VolumeWithoutPart stands where the volume of a part is given and its mass is not: the
// volume is not used.
type VolumeWithoutPart struct{}

// Code names the kind.
func (VolumeWithoutPart) Code() string { return "weighing-volume-without-part" }

// WallWithoutVoids stands where the fractions rest on a wall of unknown density: voids in it
// count as resin.
type WallWithoutVoids struct{}

// Code names the kind.
func (WallWithoutVoids) Code() string { return "weighing-wall-without-voids" }

// FirstOrderNotEnough stands for a result whose uncertainty by drawing differs from that to
// first order, which is the one that is reported.
type FirstOrderNotEnough struct {
	Of                Figure
	Draws             int
	FirstOrder, Drawn float64 // standard uncertainties in SI
}

// Code names the kind.
func (FirstOrderNotEnough) Code() string { return "weighing-first-order-not-enough" }

// ScaleAssumed: the step of the scale was not given.
type ScaleAssumed struct{ Step quantity.Mass }

// Code names the kind.
func (ScaleAssumed) Code() string { return "weighing-scale-assumed" }

// BandAssumed: the band about the target was not given.
type BandAssumed struct{ Band quantity.Fraction }

// Code names the kind.
func (BandAssumed) Code() string { return "weighing-band-assumed" }

// TexToleranceAssumed: nothing was said of how far the tex may be off.
type TexToleranceAssumed struct{ Within quantity.Fraction }

// Code names the kind.
func (TexToleranceAssumed) Code() string { return "weighing-tex-tolerance-assumed" }

// TowToleranceAssumed: nothing was said of how far the tow's length may be off.
type TowToleranceAssumed struct{ Within quantity.Fraction }

// Code names the kind.
func (TowToleranceAssumed) Code() string { return "weighing-tow-tolerance-assumed" }

// FibreDensityToleranceAssumed: nothing was said of how far the fibre's density may be off.
type FibreDensityToleranceAssumed struct{ Within quantity.Fraction }

// Code names the kind.
func (FibreDensityToleranceAssumed) Code() string {
	return "weighing-fibre-density-tolerance-assumed"
}

// ResinDensityToleranceAssumed: nothing was said of how far the cured resin's density may be
// off.
type ResinDensityToleranceAssumed struct{ Within quantity.Fraction }

// Code names the kind.
func (ResinDensityToleranceAssumed) Code() string {
	return "weighing-resin-density-tolerance-assumed"
}

// WaterTemperatureAssumed: the water that a piece was hung in was not measured.
type WaterTemperatureAssumed struct {
	Water  quantity.Temperature
	Within quantity.TemperatureDifference
}

// Code names the kind.
func (WaterTemperatureAssumed) Code() string { return "weighing-water-temperature-assumed" }

// TrimmingsAssumedAlike: trimmings count with the composition of the part.
type TrimmingsAssumedAlike struct{}

// Code names the kind.
func (TrimmingsAssumedAlike) Code() string { return "weighing-trimmings-assumed-alike" }

// Warnings has one of each kind that this package finds, what it assumed among them.
var Warnings = []warning.Warning{
	Disagreement{A: Tow, B: Spool, Of: FibreMass, Difference: 0.05, U: 0.005},
	Disagreement{A: Scales, Of: VoidShare, Difference: -0.05, U: 0.005},
	OneInputExplains{Best: []Suspect{{Input: "tex", Of: LinearDensity, Change: 8e-5, InU: 3}}, Others: 1},
	NoInputExplains{},
	VoidsBelowZero{Voids: -0.01},
	MixedNotWeighed{},
	VoidsNeedDensities{},
	VolumeWithoutPart{},
	WallWithoutVoids{},
	FirstOrderNotEnough{Of: PieceDensity, Draws: 10_000, FirstOrder: 100, Drawn: 120},
	ScaleAssumed{Step: 0.001},
	BandAssumed{Band: 0.02},
	TexToleranceAssumed{Within: 0.02},
	TowToleranceAssumed{Within: 0.01},
	FibreDensityToleranceAssumed{Within: 0.01},
	ResinDensityToleranceAssumed{Within: 0.01},
	WaterTemperatureAssumed{Water: DefaultWaterTemperature, Within: unknownWater},
	TrimmingsAssumedAlike{},
}
