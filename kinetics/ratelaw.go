package kinetics

// A RateLaw gives the rate of cure without vitrification. The list of laws is
// closed: [KamalSourour], [NthOrder] and [TwoStage].
type RateLaw interface {
	// Rate returns dα/dt in 1/s at the conversion alpha and the absolute
	// temperature kelvin.
	Rate(alpha, kelvin float64) float64
	// Breaks returns the conversions, ascending, at which the law changes its
	// form. Between two breaks an integrator uses [RateLaw.Piece], which is
	// smooth, and restarts at the break.
	Breaks() []float64
	// Piece returns the i-th smooth form, continued beyond its own breaks; i is
	// the number of breaks below the conversion.
	Piece(i int) RateLaw
	// Scaled returns the law with every rate constant times factor.
	Scaled(factor float64) RateLaw
}

// unit clamps a conversion to 0..1.
func unit(alpha float64) float64 {
	if alpha < 0 {
		return 0
	}
	if alpha > 1 {
		return 1
	}
	return alpha
}
