package weighing

// Known is an input that may be missing.
type Known[T ~float64] struct {
	Value T
	// U is its standard uncertainty; 0 takes that of the scale or of the
	// tolerances.
	U     T
	Given bool
}

// Of is an input with the usual uncertainty.
func Of[T ~float64](value T) Known[T] { return Known[T]{Value: value, Given: true} }

// Within is an input with a standard uncertainty of its own.
func Within[T ~float64](value, u T) Known[T] { return Known[T]{Value: value, U: u, Given: true} }
