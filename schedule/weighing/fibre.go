package weighing

import (
	"math"

	"potlife/schedule/weighing/budget"
)

// A Route is a way to a fibre fraction or to the mass of fibre.
type Route string

// The routes. Scales is the part weighed together with whatever is known of its
// fibre; Told, Tow and Spool are the ways to the fibre.
const (
	Scales    Route = "scales"
	Told      Route = "fibre"
	Tow       Route = "tow"
	Spool     Route = "spool"
	Coupon    Route = "coupon"
	Thickness Route = "thickness"
)

// how says by what way the fibre is known.
func (r Route) how() string {
	if r == Told {
		return "as told"
	}
	return "by " + string(r)
}

// A fibreEstimate is one independent way to the mass of fibre.
type fibreEstimate struct {
	route  Route
	doubt  key
	mass   budget.Func
	weight float64 // in the mean of all
}

// fibreEstimates lists the ways that the inputs allow.
func (m *model) fibreEstimates() []fibreEstimate {
	list := []fibreEstimate{}
	if m.has(fibre) {
		list = append(list, fibreEstimate{route: Told, doubt: toldDoubt, mass: func(x []float64) float64 { return x[fibre] }})
	}
	if m.has(tow, tex) {
		list = append(list, fibreEstimate{route: Tow, doubt: towDoubt, mass: func(x []float64) float64 { return m.tows * x[tow] * x[tex] }}) // (3)
	}
	if m.has(spoolBefore, spoolAfter) {
		list = append(list, fibreEstimate{route: Spool, doubt: spoolDoubt, mass: func(x []float64) float64 { return x[spoolBefore] - x[spoolAfter] }}) // (4)
	}
	return list
}

// fibre is the mean of the estimates, (5).
func (m *model) fibre(x []float64) float64 {
	sum := 0.0
	for _, e := range m.estimates {
		sum += e.weight * (e.mass(x) + x[e.doubt])
	}
	return sum
}

// weighFibre gives each estimate its weight. Estimates that agree are weighed
// with the inverse of their variances; where two disagree beyond k = 2, at least
// one is not what its uncertainty says, and each is given the variance τ² that
// their scatter shows, (6). The weights are constants from here on.
func (m *model) weighFibre() {
	mass, variance := make([]float64, len(m.estimates)), make([]float64, len(m.estimates))
	for i, e := range m.estimates {
		out := budget.Propagate(e.mass, m.plain)
		mass[i], variance[i] = out.Value, out.U*out.U
	}
	weights, tau := inverse(variance), 0.0
	if disagree(mass, variance) {
		tau = scatter(mass, variance)
		for i := range variance {
			variance[i] += tau * tau
		}
		weights = inverse(variance)
	}
	m.readings = append([]budget.Reading(nil), m.plain...)
	for i := range m.estimates {
		m.estimates[i].weight = weights[i]
		m.readings[m.estimates[i].doubt].U = tau
	}
}

// inverse returns weights as the inverse of variances, together 1.
func inverse(variance []float64) []float64 {
	weights, sum := make([]float64, len(variance)), 0.0
	for i, v := range variance {
		weights[i] = 1 / v
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}

func disagree(mass, variance []float64) bool {
	for i := range mass {
		for j := range i {
			if math.Abs(mass[i]-mass[j]) > 2*math.Sqrt(variance[i]+variance[j]) {
				return true
			}
		}
	}
	return false
}

// scatter returns τ of (6), the deviation between estimates beyond their own
// uncertainties.
func scatter(mass, variance []float64) float64 {
	sum, pairs, apart := 0.0, 0.0, 0.0
	for i, v := range variance {
		sum += 1 / v
		for j := range i {
			weight := 1 / v / variance[j]
			pairs += weight
			apart += weight * (mass[i] - mass[j]) * (mass[i] - mass[j])
		}
	}
	return math.Sqrt(max(0, (apart-float64(len(mass)-1)*sum)/(2*pairs)))
}
