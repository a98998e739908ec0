package weighing

import "slices"

// A key is the place of an input among the readings of a model.
type key int

// The inputs, named as the package comment lists them.
const (
	part key = iota
	mandrel
	trimmings
	fibre
	tow
	tex
	spoolBefore
	spoolAfter
	mixed
	leftOver
	cups
	rags
	drips
	fibreDensity
	resinDensity
	volume
	thickness
	arealWeight
	air
	water
	waterTemperature
	coupon
	residue
	// How far the estimates of the fibre may be off beyond their own
	// uncertainties, where they disagree.
	toldDoubt
	towDoubt
	spoolDoubt
	keys
)

// disagreement starts the names of those doubts.
const disagreement = "disagreement about the fibre"

// IsDisagreement tells whether a share of doubt is that of ways to the fibre that
// disagree, and no input's.
func IsDisagreement(name string) bool { return slices.Contains(names[toldDoubt:], name) }

var names = [keys]string{
	part: "part", mandrel: "mandrel", trimmings: "trimmings",
	fibre: "fibre", tow: "tow", tex: "tex", spoolBefore: "spool before", spoolAfter: "spool after",
	mixed: "mixed", leftOver: "left over", cups: "cups", rags: "rags", drips: "drips",
	fibreDensity: "fibre density", resinDensity: "resin density",
	volume: "volume", thickness: "thickness", arealWeight: "areal weight",
	air: "air", water: "water", waterTemperature: "water temperature",
	coupon: "coupon", residue: "residue",
	toldDoubt: disagreement + " as told", towDoubt: disagreement + " by tow", spoolDoubt: disagreement + " by spool",
}

// String is the name that a person knows the input by.
func (k key) String() string { return names[k] }
