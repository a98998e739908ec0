package weighing

import (
	"math"

	"potlife/kinetics/warning"
	"potlife/schedule/weighing/budget"
)

const (
	// checkDraws is how often [Weigh] draws to check itself: a standard deviation
	// of so many draws is uncertain by 0.7 %.
	checkDraws = 10_000
	// curved is the difference between both uncertainties beyond which first
	// order is not enough.
	curved = 0.05
)

// A Check holds the uncertainties of all results against those by drawing.
type Check struct {
	Draws   int
	Seed    uint64
	Results []Checked
}

// Checked is one result with both uncertainties, in SI.
type Checked struct {
	Name       Figure
	FirstOrder float64 // standard uncertainty
	Drawn      budget.Drawn
}

// MonteCarlo draws all inputs n times and computes every result anew (JCGM 101).
// The same seed gives the same draws.
func (r *Result) MonteCarlo(n int, seed uint64) Check {
	formulas := make([]budget.Func, len(r.outputs))
	for i, o := range r.outputs {
		formulas[i] = o.f
	}
	check := Check{Draws: n, Seed: seed, Results: make([]Checked, len(formulas))}
	for i, drawn := range budget.Sample(formulas, r.model.readings, n, seed) {
		check.Results[i] = Checked{Name: r.outputs[i].name, FirstOrder: r.outputs[i].u, Drawn: drawn}
	}
	return check
}

// Off is the relative difference of both uncertainties; 0 if there is none, +Inf
// if one of them is no number.
func (c Checked) Off() float64 {
	if c.FirstOrder == 0 && c.Drawn.U == 0 {
		return 0
	}
	off := math.Abs(c.Drawn.U/c.FirstOrder - 1)
	if math.IsNaN(off) {
		return math.Inf(1)
	}
	return off
}

// Warnings names the results for which first order is not enough; few draws
// warn by chance.
func (c Check) Warnings() []warning.Warning {
	var list []warning.Warning
	for _, result := range c.Results {
		if off := result.Off(); off > curved {
			list = append(list, FirstOrderNotEnough{Of: result.Name, Draws: c.Draws, FirstOrder: result.FirstOrder, Drawn: result.Drawn.U})
		}
	}
	return list
}
