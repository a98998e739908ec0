package budget_test

import (
	"math"
	"testing"

	"potlife/schedule/weighing/budget"
)

const draws = 200_000

// near: a standard deviation of n draws is uncertain by 1/√(2n) of it; five of
// those.
var near = 5 / math.Sqrt(2*draws)

func check(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.6g, want %g ± %.2g", what, got, want, tolerance)
	}
}

// endGauge is the worked example of JCGM 100:2008, annex H.1, in nm and K: the
// length of an end gauge from that of a standard and the difference d of both,
//
//	l = l_s + d − l_s·(δα·θ + α_s·δθ).
//
// Readings and results are from memory; the arithmetic was done again by hand
// here: 25, 9.7, 2.9 and 16.7 nm make 31.7.
func endGauge() ([]budget.Reading, budget.Func) {
	readings := []budget.Reading{
		{Name: "standard", Value: 50_000_623, U: 25},
		{Name: "difference", Value: 215, U: 9.7},
		{Name: "δα", Value: 0, U: 0.58e-6, Shape: budget.Rectangular},
		{Name: "θ", Value: -0.1, U: 0.41},
		{Name: "α", Value: 11.5e-6, U: 1.2e-6, Shape: budget.Rectangular},
		{Name: "δθ", Value: 0, U: 0.029, Shape: budget.Rectangular},
	}
	return readings, func(x []float64) float64 { return x[0] + x[1] - x[0]*(x[2]*x[3]+x[4]*x[5]) }
}

// TestEndGauge: the guide prints 32 nm to first order (H.1.4), 34 nm with the
// terms of second order (H.1.7) and a length of 50.000838 mm. Drawing must find
// the latter by itself. Tolerance: half of the last digit printed.
func TestEndGauge(t *testing.T) {
	readings, length := endGauge()
	got := budget.Propagate(length, readings)
	check(t, "length", got.Value, 50_000_838, 0.5)
	check(t, "u to first order", got.U, 32, 0.5)
	check(t, "u of the standard", got.Shares[0].U, 25, 0.05)
	check(t, "u of δθ", got.Shares[1].U, 16.6, 0.1) // printed 16.6; 50e6·11.5e-6·0.029 = 16.7
	check(t, "u of δα", got.Shares[3].U, 2.9, 0.05)
	if len(got.Shares) != 4 || got.Shares[0].Name != "standard" || got.Shares[1].Name != "δθ" {
		t.Errorf("shares %v", got.Shares)
	}
	drawn := budget.Sample([]budget.Func{length}, readings, draws, 1)[0]
	check(t, "u by drawing", drawn.U, 34, 0.5)
	if drawn.U/got.U <= 1.05 {
		t.Errorf("drawing gives %g, first order %g: the second order is gone", drawn.U, got.U)
	}
}

// TestSumOfFour: JCGM 101:2008, 9.2 (memory): four readings with mean 0 and
// deviation 1 add up to deviation 2; 95 % lie within ±3.92 if each is normal,
// ±3.88 if each is rectangular. The quantile p of n draws is uncertain by
// √(p(1 − p)/n) over the density there, 0.029: by 0.012; five of those.
func TestSumOfFour(t *testing.T) {
	sum := func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] }
	for shape, end := range map[budget.Shape]float64{budget.Normal: 3.92, budget.Rectangular: 3.88} {
		readings := make([]budget.Reading, 4)
		for i := range readings {
			readings[i] = budget.Reading{U: 1, Shape: shape}
		}
		check(t, "first order", budget.Propagate(sum, readings).U, 2, 1e-12) // rounding
		drawn := budget.Sample([]budget.Func{sum}, readings, draws, 7)[0]
		check(t, "mean", drawn.Mean, 0, 5*2/math.Sqrt(draws))
		check(t, "deviation", drawn.U, 2, 2*near)
		check(t, "low end", drawn.Low, -end, 0.06)
		check(t, "high end", drawn.High, end, 0.06)
	}
}

// TestSecondDegreeIsExact: a central difference with step u is the derivative of
// a parabola, whatever the step (algebra); tolerance is rounding.
func TestSecondDegreeIsExact(t *testing.T) {
	readings := []budget.Reading{{Value: 3, U: 0.7}, {Value: -2, U: 0.4}, {Value: 5}}
	f := func(x []float64) float64 { return x[0]*x[0]*x[2] + x[0]*x[1] }
	got := budget.Contributions(f, readings)
	check(t, "first", got[0], (2*3*5-2)*0.7, 1e-12)
	check(t, "second", got[1], 3*0.4, 1e-12)
	check(t, "exact reading", got[2], 0, 0)
}

// TestNoNumberStaysNone: a formula that is no number is never made one.
func TestNoNumberStaysNone(t *testing.T) {
	readings := []budget.Reading{{Value: 1, U: 1}}
	root := func(x []float64) float64 { return math.Log(x[0] - 0.5) }
	if got := budget.Propagate(root, readings); !math.IsNaN(got.U) {
		t.Errorf("uncertainty %g of a formula that is no number within it", got.U)
	}
	if got := budget.Sample([]budget.Func{root}, readings, 100, 1)[0]; !math.IsNaN(got.U) {
		t.Errorf("uncertainty %g by drawing", got.U)
	}
}

// TestSameSeedSameDraws.
func TestSameSeedSameDraws(t *testing.T) {
	readings, length := endGauge()
	draw := func(seed uint64) budget.Drawn {
		return budget.Sample([]budget.Func{length}, readings, 1000, seed)[0]
	}
	if draw(1) != draw(1) || draw(1) == draw(2) {
		t.Error("the seed does not decide the draws")
	}
}
