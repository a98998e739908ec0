package budget_test

import (
	"fmt"
	"math"
	"testing"

	"potlife/kinetics/outside"
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
// Readings, length and the 32 nm were read in test suites of public programs, the rest is
// from memory; the arithmetic was done again by hand here: 25, 9.7, 2.9 and 16.7 nm make 31.7.
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
	row := func(id, what, where, printed string, mark outside.Mark, within float64, why string) outside.Row {
		return outside.Row{
			ID: "weighing/end-gauge/" + id, Subject: outside.Weighing, Source: "jcgm100", Where: where, Mark: mark,
			What: what, Printed: printed, Unit: "nm", Within: within, Why: why,
		}
	}
	outside.Check(t, row("length", "length of an end gauge", "H.1", "50000838", outside.Seen, 0, ""), got.Value)
	outside.Check(t, row("first-order", "standard uncertainty of an end gauge, to first order", "H.1.4", "32", outside.Seen, 0, ""), got.U)
	outside.Check(t, row("standard", "share of the standard in the doubt of an end gauge", "H.1.3", "25", outside.Memory, 0.05, "as sharp as the reading"), got.Shares[0].U)
	outside.Check(t, row("difference", "share of the difference in temperature in the doubt of an end gauge", "H.1.3", "16.6", outside.Memory, 0.1,
		"printed 16.6 where 50e6·11.5e-6·0.029 is 16.7"), got.Shares[1].U)
	outside.Check(t, row("expansion", "share of the difference in expansion in the doubt of an end gauge", "H.1.3", "2.9", outside.Memory, 0, ""), got.Shares[3].U)
	if len(got.Shares) != 4 || got.Shares[0].Name != "standard" || got.Shares[1].Name != "δθ" {
		t.Errorf("shares %v", got.Shares)
	}
	drawn := budget.Sample([]budget.Func{length}, readings, draws, 1)[0]
	outside.Check(t, row("second-order", "standard uncertainty of an end gauge, by drawing, second order and all", "H.1.7", "34", outside.Memory, 0, ""), drawn.U)
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
		name := map[budget.Shape]string{budget.Normal: "normal", budget.Rectangular: "rectangular"}[shape]
		outside.Check(t, outside.Row{
			ID: "weighing/sum-of-four/" + name, Subject: outside.Weighing, Source: "jcgm101", Where: "9.2", Mark: outside.Memory,
			What:    "end of the interval that holds 95 % of a sum of four " + name + " readings",
			Printed: fmt.Sprintf("%.2f", end), Within: 0.06, Why: "a quantile of 200 000 draws is uncertain by 0.012; five of those",
		}, drawn.High)
	}
}

// TestWeights: two worked budgets of weighing. The weight of 10 kg is S2 of EA-4/02 as a
// public page works it; the simple weighing is the University of Tartu's. Both were read
// with their readings and results.
func TestWeights(t *testing.T) {
	sum := func(x []float64) float64 {
		total := 0.0
		for _, v := range x {
			total += v
		}
		return total
	}
	half := func(v float64) float64 { return v / math.Sqrt(3) } // standard deviation of a half width
	ten := budget.Propagate(sum, []budget.Reading{
		{Name: "standard", Value: 10_000.005, U: 45e-3 / 2},
		{Name: "drift", U: half(15e-3), Shape: budget.Rectangular},
		{Name: "difference", Value: 0.020, U: 14.2e-3},
		{Name: "eccentricity", U: half(10e-3), Shape: budget.Rectangular},
		{Name: "buoyancy", U: half(10e-3), Shape: budget.Rectangular},
	})
	simple := budget.Propagate(sum, []budget.Reading{
		{Name: "repeatability", Value: 0.3240, U: 0.17e-3},
		{Name: "drift", U: half(0.2e-3), Shape: budget.Rectangular},
		{Name: "reading", U: half(0.05e-3), Shape: budget.Rectangular},
	})
	for _, c := range []struct {
		id, source, where, what, printed string
		within                           float64
		why                              string
		ours                             float64
	}{
		{"ten-kilograms/mass", "ea402", "S2", "mass of a weight of 10 kg", "10000.025", 0, "", ten.Value},
		{"ten-kilograms/u", "ea402", "S2", "standard uncertainty of a weight of 10 kg", "0.0291", 1e-4, "the repeatability is printed to three digits", ten.U},
		{"ten-kilograms/share", "ea402", "S2", "share of drift in the doubt of a weight of 10 kg", "0.0087", 0, "", ten.Shares[2].U},
		{"simple/u", "tartu", "", "standard uncertainty of a simple weighing of 0.324 g", "2.07525e-4", 0, "", simple.U},
	} {
		outside.Check(t, outside.Row{
			ID: "weighing/" + c.id, Subject: outside.Weighing, Source: c.source, Where: c.where, Mark: outside.Seen,
			What: c.what, Printed: c.printed, Unit: "g", Within: c.within, Why: c.why,
		}, c.ours)
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
