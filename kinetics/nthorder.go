package kinetics

// NthOrder is the law (2) of the package comment, dα/dt = k·(1 − α)^n, with N
// positive.
type NthOrder struct {
	K Arrhenius
	N float64 // dimensionless
}

// Rate returns dα/dt in 1/s; kelvin is the absolute temperature.
func (l NthOrder) Rate(alpha, kelvin float64) float64 {
	return l.K.At(kelvin) * power(1-unit(alpha), l.N)
}

// Breaks returns nothing: the law has one form.
func (l NthOrder) Breaks() []float64 { return nil }

// Piece returns the law itself.
func (l NthOrder) Piece(int) RateLaw { return l }

// Scaled returns the law with its rate constant times factor.
func (l NthOrder) Scaled(factor float64) RateLaw {
	l.K = l.K.scaled(factor)
	return l
}
