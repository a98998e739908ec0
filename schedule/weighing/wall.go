package weighing

import "potlife/kinetics/quantity"

// FibreByThickness is the fibre fraction by volume, voids counted, of a wall of
// plies of known areal weight, by ASTM D3171 method II, (15) of the package
// comment.
func FibreByThickness(plies int, ply quantity.ArealWeight, fibre quantity.Density, wall quantity.Length) quantity.Fraction {
	return quantity.Fraction(float64(plies) * float64(ply) / (float64(fibre) * float64(wall)))
}

// Wall is the thickness of plies at a fibre fraction by volume, (15) solved for
// it.
func Wall(plies int, ply quantity.ArealWeight, fibre quantity.Density, byVolume quantity.Fraction) quantity.Length {
	return quantity.Length(float64(plies) * float64(ply) / (float64(fibre) * float64(byVolume)))
}

// PlyWeight is the areal weight of a ply wound as a band of tows laid side by
// side.
func PlyWeight(tows int, tex quantity.LinearDensity, band quantity.Length) quantity.ArealWeight {
	return quantity.ArealWeight(float64(tows) * float64(tex) / float64(band))
}
