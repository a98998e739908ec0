package weighing

import (
	"cmp"

	"potlife/kinetics/quantity"
)

// Defaults of the target and of the scale.
const (
	// DefaultBand is how far a fibre fraction by mass may be off its target: 2
	// percentage points (our choice).
	DefaultBand quantity.Fraction = 0.02
	// DefaultScale is the step of a kitchen scale (our choice).
	DefaultScale quantity.Mass = 0.001
)

// DefaultWaterTemperature is that of the laboratory of ASTM D792 (memory).
var DefaultWaterTemperature = quantity.Celsius(23)

// Tolerances are greatest errors to either side of inputs that came without an
// uncertainty; within them nothing is known (rectangular, u = a/√3). Zero takes
// the default. Fractions are of the input's value.
type Tolerances struct {
	Tex, Tow, ArealWeight      quantity.Fraction
	FibreDensity, ResinDensity quantity.Fraction
	Volume                     quantity.Fraction
	Thickness                  quantity.Length
	WaterTemperature           quantity.TemperatureDifference
}

// The defaults. Tows are delivered within ±2 % or so of their tex (common
// practice, memory); the rest are our choice: a counter or a drawn path off by
// 1 %, densities off the usual ones by 1 %, a caliper on a wound wall.
var defaults = Tolerances{
	Tex: 0.02, Tow: 0.01, ArealWeight: 0.02,
	FibreDensity: 0.01, ResinDensity: 0.01,
	Volume:           0.01,
	Thickness:        0.05e-3,
	WaterTemperature: 0.5,
}

// UsualTolerances are those that an input takes which comes without any.
func UsualTolerances() Tolerances { return defaults }

// unknownWater is the tolerance of a water temperature that was not measured: a
// heated room (our choice).
const unknownWater quantity.TemperatureDifference = 4

// settle puts the defaults where nothing was said.
func (t Tolerances) settle() Tolerances {
	return Tolerances{
		Tex:              cmp.Or(t.Tex, defaults.Tex),
		Tow:              cmp.Or(t.Tow, defaults.Tow),
		ArealWeight:      cmp.Or(t.ArealWeight, defaults.ArealWeight),
		FibreDensity:     cmp.Or(t.FibreDensity, defaults.FibreDensity),
		ResinDensity:     cmp.Or(t.ResinDensity, defaults.ResinDensity),
		Volume:           cmp.Or(t.Volume, defaults.Volume),
		Thickness:        cmp.Or(t.Thickness, defaults.Thickness),
		WaterTemperature: cmp.Or(t.WaterTemperature, defaults.WaterTemperature),
	}
}
