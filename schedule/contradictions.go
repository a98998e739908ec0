package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// The warnings that no plan can mend: two figures of a job do not go together.

// PotGelsInMixing is a pot that gels in its cup before it is mixed.
type PotGelsInMixing struct {
	Pot    quantity.Mass
	Mixing quantity.Time
}

// Code names the kind.
func (PotGelsInMixing) Code() string { return "pot-gels-while-mixed" }

// A LimitFrom is where a limit comes from.
type LimitFrom string

// The origins.
const (
	FromJob    LimitFrom = "job"
	FromJacket LimitFrom = "jacket" // that much above it
	FromUse    LimitFrom = "usual"
)

// WarmerThanLimit is resin as mixed, or what is around the bath, that is warmer than the
// bath may be.
type WarmerThanLimit struct {
	Site      Site
	At, Limit quantity.Temperature
	From      LimitFrom
}

// Code names the kind.
func (WarmerThanLimit) Code() string { return "warmer-than-bath-limit" }

// NeverThins is resin that is too thick for the bath when mixed and only gets thicker.
type NeverThins struct {
	Viscosity, Limit quantity.Viscosity
	At               quantity.Temperature
	Mixing           quantity.Time
}

// Code names the kind.
func (NeverThins) Code() string { return "bath-never-thins" }

// TooThickOnMandrel is fresh resin that is too thick as laid.
type TooThickOnMandrel struct {
	Viscosity, Limit quantity.Viscosity
	Mandrel          quantity.Temperature
	Mixing           quantity.Time
}

// Code names the kind.
func (TooThickOnMandrel) Code() string { return "too-thick-on-mandrel" }

// TooHotWhenMixed is resin that warms beyond the bath's limit while it is mixed.
type TooHotWhenMixed struct {
	At, Limit quantity.Temperature
	Mixing    quantity.Time
}

// Code names the kind.
func (TooHotWhenMixed) Code() string { return "too-hot-when-mixed" }

// FreshBathTooShort is a likely bath that lasts less than the reserve at best.
type FreshBathTooShort struct {
	Lasts, Reserve quantity.Time
	EndsBy         vessel.Limit
}

// Code names the kind.
func (FreshBathTooShort) Code() string { return "fresh-bath-shorter-than-reserve" }
