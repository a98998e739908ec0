package replay

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// LeftOverFar stands where what was weighed of the bath is far from what is reckoned without
// it: the weight, or something that was not logged, is wrong.
type LeftOverFar struct{ Weighed, Reckoned quantity.Mass }

// Code names it for programs.
func (LeftOverFar) Code() string { return "left-over-far-from-reckoning" }

// Warnings has one of each kind.
var Warnings = []warning.Warning{LeftOverFar{}}
