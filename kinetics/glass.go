package kinetics

import (
	"math"

	"potlife/kinetics/quantity"
)

// DiBenedetto gives the glass temperature of a partly cured resin, (7) of the
// package comment. Lambda is dimensionless, between 0 and 1.
type DiBenedetto struct {
	Uncured, Cured quantity.Temperature
	Lambda         float64
}

// At returns Tg in K at the conversion alpha.
func (g DiBenedetto) At(alpha float64) quantity.Temperature {
	alpha = unit(alpha)
	return g.Uncured + (g.Cured-g.Uncured)*quantity.Temperature(g.Lambda*alpha/(1-(1-g.Lambda)*alpha))
}

// Conversion returns the α at which Tg(α) = glass, the inverse of (7). Above the
// fully cured glass temperature the value exceeds 1; below the pole of the
// formula, far under the uncured glass temperature, it is −Inf.
func (g DiBenedetto) Conversion(glass quantity.Temperature) float64 {
	x := float64((glass - g.Uncured) / (g.Cured - g.Uncured))
	bottom := g.Lambda + (1-g.Lambda)*x
	if bottom <= 0 {
		return math.Inf(-1)
	}
	return x / bottom
}
