package weighing

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
)

// Input is what was weighed and measured; the zero value has nothing.
type Input struct {
	// Part as weighed: on its mandrel if Mandrel is given, else bare.
	Part, Mandrel Known[quantity.Mass]
	// Trimmings were cut off before Part was weighed. They are taken to be made
	// of fibre and resin as the part is.
	Trimmings Known[quantity.Mass]

	// Fibre on part and trimmings, from any of: itself, the tow that ran, the
	// spools. Dry ends that were cut off belong to neither: take them off first.
	Fibre                   Known[quantity.Mass]
	Tow                     Known[quantity.Length] // of each tow
	Tex                     Known[quantity.LinearDensity]
	Tows                    int
	SpoolBefore, SpoolAfter Known[quantity.Mass]

	// Resin: mixed in all, left in the bath, and what else took it.
	Mixed, LeftOver, Cups, Rags, Drips Known[quantity.Mass]

	FibreDensity Known[quantity.Density]
	ResinDensity Known[quantity.Density] // cured
	Target       resins.FibreFraction    // zero: no verdict
	Band         quantity.Fraction       // by mass, to either side; 0: DefaultBand

	Volume      Known[quantity.Volume] // of the bare part as weighed
	Thickness   Known[quantity.Length]
	ArealWeight Known[quantity.ArealWeight] // fibre in one ply
	Plies       int                         // through the wall; a helical layer has two

	// A piece in air and hung in water, with what it hangs on tared.
	Air, Water       Known[quantity.Mass]
	WaterTemperature Known[quantity.Temperature] // not given: 23 °C

	// A coupon before burning off or digesting its resin, and what was left. If
	// there is one, Air and Water are taken to be of the same piece.
	Coupon, Residue Known[quantity.Mass]

	Scale      quantity.Mass // step of the scale; 0: DefaultScale
	Balance    quantity.Mass // step of what weighed Air, Water, Coupon and Residue; 0: Scale
	Tolerances Tolerances
}
