package budget

// Shape is how a reading lies about its value.
type Shape int

// The two shapes. A scale that rounds to a step is as likely to be off by any
// amount up to half of it, and so is a tolerance ±a of which nothing else is
// known: rectangular, with u = a/√3 (JCGM 100:2008, 4.3.7, memory).
const (
	Normal Shape = iota
	Rectangular
)

// A Reading is one independent number that a formula rests on.
type Reading struct {
	Name  string
	Value float64
	U     float64 // standard uncertainty; 0: known exactly
	Shape Shape
}

// A Func is a formula of all readings, in their order. It must not keep x.
type Func func(x []float64) float64

// Values returns the readings without their doubt.
func Values(readings []Reading) []float64 {
	x := make([]float64, len(readings))
	for i, r := range readings {
		x[i] = r.Value
	}
	return x
}
