package kinetics

import (
	"math"

	"potlife/kinetics/quantity"
)

// GasConstant is R in J/(mol·K), exact since the 2019 revision of the SI.
const GasConstant = 8.314462618

// An Arrhenius constant k = A·exp(−E/(R·T)), (4) of the package comment.
// A may be negative where a published law has it so.
type Arrhenius struct {
	A quantity.Rate        // 1/s
	E quantity.MolarEnergy // J/mol
}

// At returns k in 1/s at the absolute temperature kelvin.
func (k Arrhenius) At(kelvin float64) float64 {
	if k.A == 0 {
		return 0
	}
	return float64(k.A) * math.Exp(-float64(k.E)/(GasConstant*kelvin))
}

func (k Arrhenius) scaled(factor float64) Arrhenius {
	k.A *= quantity.Rate(factor)
	return k
}
