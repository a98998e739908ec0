package cure

import "potlife/kinetics/quantity"

// AirTooHot: the program's air is hotter than the oven's highest.
type AirTooHot struct{ Air, Highest quantity.Temperature }

// Code names the kind.
func (AirTooHot) Code() string { return "oven-air-too-hot" }

// StepTooFast: a step is faster than the oven's ramp or cooling.
type StepTooFast struct {
	Step          int // from 1
	Rate, Allowed quantity.HeatingRate
}

// Code names the kind.
func (StepTooFast) Code() string { return "oven-step-too-fast" }

// TargetMissed: the laziest place of a slow hardener has not cured as far as asked when the
// last hold ends.
type TargetMissed struct {
	Degree float64
	Glass  quantity.Temperature
	Asked  float64 // degree of cure
}

// Code names the kind.
func (TargetMissed) Code() string { return "cure-target-missed" }

// PartTooHot: the hottest place passes the exotherm's limit.
type PartTooHot struct {
	Hardener      Hardener
	Peak, Allowed quantity.Temperature
}

// Code names the kind.
func (PartTooHot) Code() string { return "cure-part-too-hot" }

// MandrelTooHot: the mandrel gets hotter than its material bears.
type MandrelTooHot struct {
	Hardener      Hardener
	Material      string
	Peak, Allowed quantity.Temperature
}

// Code names the kind.
func (MandrelTooHot) Code() string { return "cure-mandrel-too-hot" }

// FreePartSoftens: a place of a part that stands free comes too close to its glass
// temperature.
type FreePartSoftens struct {
	Hardener     Hardener
	At           quantity.Time                  // from the last layer
	Lead, Margin quantity.TemperatureDifference // of the glass temperature
}

// Code names the kind.
func (FreePartSoftens) Code() string { return "cure-free-part-softens" }

// NotGelled: the part can still run when it goes into an oven that does not turn.
type NotGelled struct{ Hardener Hardener }

// Code names the kind.
func (NotGelled) Code() string { return "cure-not-gelled" }
