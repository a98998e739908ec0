package weighing

import (
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule/weighing/budget"
)

// A model is the inputs as independent readings and the formulas on them, which
// take the readings by key, in SI.
type model struct {
	readings  []budget.Reading // by key, with the doubts of the fibre where its estimates disagree
	plain     []budget.Reading // the same without those doubts
	values    []float64
	given     [keys]bool
	tows      float64
	plies     int
	target    resins.FibreFraction
	band      float64
	estimates []fibreEstimate // those that the inputs allow
	answer    Route           // what the fractions rest on
}

func newModel(in *Input, entries []entry) *model {
	m := &model{tows: float64(in.Tows), plies: in.Plies, target: in.Target, band: float64(in.Band)}
	m.plain = make([]budget.Reading, keys)
	for k := range keys {
		m.plain[k].Name = k.String()
	}
	for _, e := range entries {
		if m.given[e.key] = e.given; e.given {
			m.plain[e.key] = e.reading
		}
	}
	m.readings = m.plain
	m.values = budget.Values(m.plain)
	m.estimates = m.fibreEstimates()
	return m
}

func (m *model) has(all ...key) bool {
	for _, k := range all {
		if !m.given[k] {
			return false
		}
	}
	return true
}

// hasMass tells whether the masses of fibre and resin can be told and not only
// their shares.
func (m *model) hasMass() bool { return m.given[part] || len(m.estimates) > 0 }

func (m *model) output(f budget.Func) budget.Output { return budget.Propagate(f, m.readings) }

// part is the part without its mandrel, (1).
func (m *model) part(x []float64) float64 {
	if m.given[part] {
		return x[part] - x[mandrel]
	}
	return m.laid(x) - x[trimmings]
}

// laid is all laminate that was wound, (2): as weighed or, if the part was not,
// what its fibre makes.
func (m *model) laid(x []float64) float64 {
	if m.given[part] {
		return x[part] - x[mandrel] + x[trimmings]
	}
	return m.fibre(x) / m.byMass(x)
}

// byMass is the fibre fraction by mass that the results rest on.
func (m *model) byMass(x []float64) float64 {
	switch m.answer {
	case Coupon:
		return byCoupon(x)
	case Thickness:
		return m.byThickness(x)
	}
	return m.fibre(x) / m.laid(x)
}

func (m *model) byVolume(x []float64) float64 { return byVolume(m.byMass(x), x) }

func byVolume(byMass float64, x []float64) float64 {
	w := resins.FibreFraction{Value: quantity.Fraction(byMass), Basis: resins.ByMass}
	return float64(w.OfVolume(quantity.Density(x[fibreDensity]), quantity.Density(x[resinDensity])))
}

func (m *model) fibreLaid(x []float64) float64 { return m.byMass(x) * m.laid(x) }
func (m *model) resinLaid(x []float64) float64 { return (1 - m.byMass(x)) * m.laid(x) }

// unaccounted is the resin that was mixed and not found, (7).
func (m *model) unaccounted(x []float64) float64 {
	return x[mixed] - m.resinLaid(x) - x[leftOver] - x[cups] - x[rags] - x[drips]
}

// targetByMass is the target by mass; a target by volume moves with the
// densities.
func (m *model) targetByMass(x []float64) float64 {
	return float64(m.target.OfMass(quantity.Density(x[fibreDensity]), quantity.Density(x[resinDensity])))
}

// pickUp is the resin for each gram of fibre over that of the target, (8).
func (m *model) pickUp(x []float64) float64 {
	w, t := m.byMass(x), m.targetByMass(x)
	return (1 - w) / w / ((1 - t) / t)
}

// surplus is the resin laid beyond the target's, (9).
func (m *model) surplus(x []float64) float64 {
	t := m.targetByMass(x)
	return m.resinLaid(x) - m.fibreLaid(x)*(1-t)/t
}
