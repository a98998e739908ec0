package cure

import "potlife/kinetics/quantity"

// NeverStiff: in [RoomHorizon] the part does not get stiff enough to be drawn from its
// mandrel, as one that stands free in the oven must be.
type NeverStiff struct{}

// Code names the kind.
func (NeverStiff) Code() string { return "cure-never-stiff-in-room" }

// NeverGels: in [RoomHorizon] the room does not gel the part, and the oven does not turn.
type NeverGels struct{}

// Code names the kind.
func (NeverGels) Code() string { return "cure-never-gels-in-room" }

// WarmsItself: the part passes the exotherm's limit before any oven.
type WarmsItself struct{ Peak, Allowed quantity.Temperature }

// Code names the kind.
func (WarmsItself) Code() string { return "cure-warms-itself" }

// GlassNeverReached: the resin does not have the glass temperature asked for, however far it
// cures.
type GlassNeverReached struct{ Cured, Asked quantity.Temperature }

// Code names the kind.
func (GlassNeverReached) Code() string { return "cure-glass-never-reached" }

// CureNeverReached: the hottest air allowed does not bring the laziest place of a slow
// hardener to its target, however long.
type CureNeverReached struct {
	Air    quantity.Temperature
	Degree float64
	Glass  quantity.Temperature
	Asked  float64 // degree of cure
}

// Code names the kind.
func (CureNeverReached) Code() string { return "cure-target-never-reached" }

// FreePartAlwaysSoftens: even the usual slow ramp brings a part that stands free too close to
// its glass temperature.
type FreePartAlwaysSoftens struct {
	Lead, Margin quantity.TemperatureDifference
}

// Code names the kind.
func (FreePartAlwaysSoftens) Code() string { return "cure-free-part-always-softens" }

// AlwaysTooHot: even the usual slow ramp brings the hottest place over the exotherm's limit.
type AlwaysTooHot struct{ Air, Peak, Allowed quantity.Temperature }

// Code names the kind.
func (AlwaysTooHot) Code() string { return "cure-always-too-hot" }
