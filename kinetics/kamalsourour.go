package kinetics

import "math"

// KamalSourour is the autocatalytic law (1) of the package comment,
//
//	dα/dt = (k1 + k2·α^m)·(1 − α)^n.
//
// With m = 1 and n = 2 it follows from equal reactivity of both hydrogens of an
// amine at stoichiometry. M and N must be positive.
type KamalSourour struct {
	K1, K2 Arrhenius
	M, N   float64 // dimensionless
}

// Rate returns dα/dt in 1/s; kelvin is the absolute temperature.
func (l KamalSourour) Rate(alpha, kelvin float64) float64 {
	alpha = unit(alpha)
	k1 := l.K1.At(kelvin)
	var k2 float64
	if l.K2.E == l.K1.E && l.K1.A != 0 {
		k2 = k1 * float64(l.K2.A/l.K1.A) // one exponential for both
	} else {
		k2 = l.K2.At(kelvin)
	}
	return (k1 + k2*power(alpha, l.M)) * power(1-alpha, l.N)
}

// Breaks returns nothing: the law has one form.
func (l KamalSourour) Breaks() []float64 { return nil }

// Piece returns the law itself.
func (l KamalSourour) Piece(int) RateLaw { return l }

// Scaled returns the law with both rate constants times factor.
func (l KamalSourour) Scaled(factor float64) RateLaw {
	l.K1, l.K2 = l.K1.scaled(factor), l.K2.scaled(factor)
	return l
}

// power is x^p for x ≥ 0, quick at the exponents that occur most.
func power(x, p float64) float64 {
	switch p {
	case 1:
		return x
	case 2:
		return x * x
	}
	return math.Pow(x, p)
}
