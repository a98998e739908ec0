package budget

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Drawn is what many draws of the readings make of a formula.
type Drawn struct {
	Mean, U   float64 // U: standard deviation of the draws
	Low, High float64 // 95 % of the draws lie between, as many below as above
}

// Sample draws all readings n times, the same draws for every formula, and
// returns what each comes to, (3) of the package comment. The same seed gives
// the same result. U of n normal draws is itself uncertain by 1/√(2n) of it. A
// draw for which a formula is no number makes all of its figures NaN.
func Sample(formulas []Func, readings []Reading, n int, seed uint64) []Drawn {
	source := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	x := make([]float64, len(readings))
	draws := make([][]float64, len(formulas))
	for range n {
		for i, r := range readings {
			x[i] = r.Value + r.U*r.Shape.unit(source)
		}
		for k, f := range formulas {
			draws[k] = append(draws[k], f(x))
		}
	}
	drawn := make([]Drawn, len(formulas))
	for k := range formulas {
		drawn[k] = summary(draws[k])
	}
	return drawn
}

// unit draws with mean 0 and deviation 1.
func (s Shape) unit(source *rand.Rand) float64 {
	if s == Rectangular {
		return math.Sqrt(3) * (2*source.Float64() - 1)
	}
	return source.NormFloat64()
}

func summary(draws []float64) Drawn {
	n := len(draws)
	nan := math.NaN()
	if n < 2 {
		return Drawn{nan, nan, nan, nan}
	}
	sum := 0.0
	for _, y := range draws {
		sum += y
	}
	mean := sum / float64(n)
	if math.IsNaN(mean) || math.IsInf(mean, 0) {
		return Drawn{nan, nan, nan, nan}
	}
	squares := 0.0
	for _, y := range draws {
		squares += (y - mean) * (y - mean)
	}
	slices.Sort(draws)
	tail := int(0.025 * float64(n))
	return Drawn{Mean: mean, U: math.Sqrt(squares / float64(n-1)), Low: draws[tail], High: draws[n-1-tail]}
}
