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

// LayerGivenUp stands where a session was finished with a layer in hand. Share is how much of
// it was wound, by the time that the machine ran in it.
type LayerGivenUp struct {
	Layer int
	Share float64
}

// Code names it for programs.
func (LayerGivenUp) Code() string { return "layer-given-up" }

// Warnings has one of each kind.
var Warnings = []warning.Warning{LeftOverFar{}, LayerGivenUp{Layer: 2, Share: 0.43}}
