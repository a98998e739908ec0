package scales

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// LayerInHand stands while a layer is being wound: its fibre is on the part and is not
// counted.
type LayerInHand struct{ Layer int }

// Code names the kind.
func (LayerInHand) Code() string { return "weighed-with-layer-in-hand" }

// LayersNotDone stands where the job has further layers: only those done are counted, and the
// share of one that was given up.
type LayersNotDone struct {
	Done, Layers int
	GivenUp      int // 0: none
	Share        float64
}

// Code names the kind.
func (LayersNotDone) Code() string { return "weighed-before-last-layer" }

// LeftOverNotWeighed stands where what was left in a bath is not known: it is part of the
// resin unaccounted for.
type LeftOverNotWeighed struct{ Baths, Of int }

// Code names the kind.
func (LeftOverNotWeighed) Code() string { return "left-over-not-weighed" }

// PartImpossible stands where what was weighed of the part is left out, since it cannot be
// true.
type PartImpossible struct{ Input, Problem string } // as in the error

// Code names the kind.
func (PartImpossible) Code() string { return "weighed-part-impossible" }

// PartIncomplete stands where what was weighed of the part is too little for its fractions.
type PartIncomplete struct{ Missing string } // as in the error

// Code names the kind.
func (PartIncomplete) Code() string { return "weighed-part-incomplete" }

// TowAssumed: the tow was not measured, and is what the job winds in the layers done and in
// the share of one that was given up.
type TowAssumed struct {
	Tow     quantity.Length
	Layers  int
	GivenUp int // 0: none
	Share   float64
}

// Code names the kind.
func (TowAssumed) Code() string { return "weighed-tow-assumed" }

// TexAssumed: the tex is the job's.
type TexAssumed struct {
	Tows int
	Tex  quantity.LinearDensity
}

// Code names the kind.
func (TexAssumed) Code() string { return "weighed-tex-assumed" }

// FibreDensityAssumed: the fibre's density is the job's.
type FibreDensityAssumed struct{ Density quantity.Density }

// Code names the kind.
func (FibreDensityAssumed) Code() string { return "weighed-fibre-density-assumed" }

// ResinDensityAssumed: the cured resin's density is that of the liquid mix.
type ResinDensityAssumed struct {
	Resin   string
	Density quantity.Density
	Within  quantity.Fraction
}

// Code names the kind.
func (ResinDensityAssumed) Code() string { return "weighed-resin-density-assumed" }

// PliesAssumed: the areal weight is what the job winds.
type PliesAssumed struct {
	Plies int
	Ply   quantity.ArealWeight
}

// Code names the kind.
func (PliesAssumed) Code() string { return "weighed-plies-assumed" }

// CupsAssumed: the cups hold the pots that stand mixed, and nothing else.
type CupsAssumed struct{ Pots int }

// Code names the kind.
func (CupsAssumed) Code() string { return "weighed-cups-assumed" }

// Warnings has one of each kind that this package finds, what it assumed among them.
var Warnings = []warning.Warning{
	LayerInHand{Layer: 2},
	LayersNotDone{Done: 1, Layers: 3},
	LeftOverNotWeighed{Baths: 1, Of: 2},
	PartImpossible{Input: "part", Problem: "it is nothing"},
	PartIncomplete{Missing: "the fibre in the part"},
	TowAssumed{Tow: 250, Layers: 3},
	TexAssumed{Tows: 4, Tex: 8e-4},
	FibreDensityAssumed{Density: 1800},
	ResinDensityAssumed{Resin: "a resin", Density: 1150, Within: liquidFor},
	PliesAssumed{Plies: 4, Ply: 0.2},
	CupsAssumed{Pots: 1},
}
