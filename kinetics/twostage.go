package kinetics

// TwoStage is the three-constant law (3) of the package comment,
//
//	α ≤ α_s: dα/dt = (k1 + k2·α)(1 − α)(B − α)
//	α > α_s: dα/dt = k3·(1 − α)
//
// whose rate jumps at α_s = Switch. K2 may be negative.
type TwoStage struct {
	K1, K2, K3 Arrhenius
	B          float64 // dimensionless
	Switch     float64 // conversion α_s
}

// Rate returns dα/dt in 1/s; kelvin is the absolute temperature.
func (l TwoStage) Rate(alpha, kelvin float64) float64 {
	if alpha > l.Switch {
		return l.Piece(1).Rate(alpha, kelvin)
	}
	return twoStageEarly{l}.Rate(alpha, kelvin)
}

// Breaks returns the conversion α_s.
func (l TwoStage) Breaks() []float64 { return []float64{l.Switch} }

// Piece returns the form below α_s for 0 and the form above it for 1.
func (l TwoStage) Piece(i int) RateLaw {
	if i == 0 {
		return twoStageEarly{l}
	}
	return NthOrder{K: l.K3, N: 1}
}

// twoStageEarly is the form below α_s, continued above it.
type twoStageEarly struct{ TwoStage }

func (l twoStageEarly) Rate(alpha, kelvin float64) float64 {
	alpha = unit(alpha)
	return (l.K1.At(kelvin) + l.K2.At(kelvin)*alpha) * (1 - alpha) * (l.B - alpha)
}

// Scaled returns the law with its three rate constants times factor.
func (l TwoStage) Scaled(factor float64) RateLaw {
	l.K1, l.K2, l.K3 = l.K1.scaled(factor), l.K2.scaled(factor), l.K3.scaled(factor)
	return l
}
