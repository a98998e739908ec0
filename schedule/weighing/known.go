package weighing

import "fmt"

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

// Volume is a volume in m³.
type Volume float64

// ArealWeight is a mass of fibre per area in kg/m².
type ArealWeight float64

// String is the volume in cm³.
func (v Volume) String() string { return fmt.Sprintf("%.4g cm³", float64(v)*1e6) }

// String is the areal weight in g/m².
func (w ArealWeight) String() string { return fmt.Sprintf("%.4g g/m²", float64(w)*1e3) }
