package scales

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/session"
	"potlife/schedule/weighing"
)

// The units of the names of [session.Weights].
const (
	gram          = 1e-3
	metre         = 1
	millimetre    = 1e-3
	millilitre    = 1e-6
	texUnit       = 1e-6
	gramPerSquare = 1e-3
	kgPerCubic    = 1
)

// put sets an input to a number of units where there is one.
func put[T ~float64](into *weighing.Known[T], number *float64, unit float64) {
	if number != nil {
		*into = weighing.Of(T(*number * unit))
	}
}

// fill puts what was weighed over an input.
func fill(in *weighing.Input, w session.Weights) {
	put(&in.Part, w.PartG, gram)
	put(&in.Mandrel, w.MandrelG, gram)
	put(&in.Trimmings, w.TrimmingsG, gram)
	put(&in.Fibre, w.FibreG, gram)
	put(&in.Tow, w.TowM, metre)
	put(&in.Tex, w.Tex, texUnit)
	put(&in.SpoolBefore, w.SpoolBeforeG, gram)
	put(&in.SpoolAfter, w.SpoolAfterG, gram)
	put(&in.Mixed, w.MixedG, gram)
	put(&in.LeftOver, w.LeftOverG, gram)
	put(&in.Cups, w.CupsG, gram)
	put(&in.Rags, w.RagsG, gram)
	put(&in.Drips, w.DripsG, gram)
	put(&in.FibreDensity, w.FibreDensityKgM3, kgPerCubic)
	put(&in.ResinDensity, w.ResinDensityKgM3, kgPerCubic)
	put(&in.Volume, w.VolumeML, millilitre)
	put(&in.Thickness, w.ThicknessMm, millimetre)
	put(&in.ArealWeight, w.ArealWeightGM2, gramPerSquare)
	put(&in.Air, w.AirG, gram)
	put(&in.Water, w.WaterG, gram)
	put(&in.Coupon, w.CouponG, gram)
	put(&in.Residue, w.ResidueG, gram)
	if w.WaterC != nil {
		in.WaterTemperature = weighing.Of(quantity.Celsius(*w.WaterC))
	}
	if w.Tows != nil {
		in.Tows = *w.Tows
	}
	if w.Plies != nil {
		in.Plies = *w.Plies
	}
	if w.ScaleG != nil {
		in.Scale = quantity.Mass(*w.ScaleG * gram)
	}
	if w.BalanceG != nil {
		in.Balance = quantity.Mass(*w.BalanceG * gram)
	}
}
