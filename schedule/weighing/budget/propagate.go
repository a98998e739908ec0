package budget

import (
	"cmp"
	"math"
	"slices"
)

// A Share is what one reading adds to the uncertainty of a result.
type Share struct {
	Name string
	U    float64 // in the unit of the result, not negative
	Part float64 // of the variance, 0 to 1
}

// An Output is a result with its standard uncertainty.
type Output struct {
	Value, U float64
	Shares   []Share // largest first; those that add nothing are left out
}

// Contributions returns u_i(y) of each reading with its sign, (1) of the package
// comment: zero for a reading that is exact or that f does not use.
func Contributions(f Func, readings []Reading) []float64 {
	x := Values(readings)
	parts := make([]float64, len(readings))
	for i, r := range readings {
		if r.U == 0 {
			continue
		}
		x[i] = r.Value + r.U
		above := f(x)
		x[i] = r.Value - r.U
		parts[i] = (above - f(x)) / 2
		x[i] = r.Value
	}
	return parts
}

// Propagate returns f with its uncertainty to first order, (1) and (2) of the
// package comment. Where f is no number, neither is the result.
func Propagate(f Func, readings []Reading) Output {
	out := Output{Value: f(Values(readings)), Shares: []Share{}}
	variance := 0.0
	for i, u := range Contributions(f, readings) {
		variance += u * u
		if u != 0 {
			out.Shares = append(out.Shares, Share{Name: readings[i].Name, U: math.Abs(u)})
		}
	}
	out.U = math.Sqrt(variance)
	for i := range out.Shares {
		out.Shares[i].Part = out.Shares[i].U * out.Shares[i].U / variance
	}
	slices.SortStableFunc(out.Shares, func(a, b Share) int { return cmp.Compare(b.U, a.U) })
	return out
}
