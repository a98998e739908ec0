package still

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// FirstPeak is how hot the hottest place of a mass gets within seven days before it cools again: a
// later stage of cure may take it higher.
func (d *Danger) FirstPeak(mass quantity.Mass) (quantity.Temperature, error) {
	pot, err := d.pot(mass)
	if err != nil {
		return 0, err
	}
	start, err := pot.Uniform(vessel.State{Temperature: d.From})
	if err != nil {
		return 0, err
	}
	if err := pot.load(start); err != nil {
		return 0, err
	}
	around := float64(d.around())
	w := &summitWatch{around: around, peak: around}
	_, err = pot.run(0, float64(dangerHorizon), nil, w)
	return quantity.Temperature(w.peak), err
}

// summitWatch ends a run where the resin has warmed by a kelvin or more and lost a fifth of that again.
type summitWatch struct{ around, peak float64 }

func (w *summitWatch) begin(*Pot, float64, []float64) {}

func (w *summitWatch) step(p *Pot) bool {
	_, kelvin := p.warmest()
	w.peak = max(w.peak, kelvin)
	const warmed, lost = 1, 0.2
	rise := w.peak - w.around
	return rise >= warmed && w.peak-p.solver.Y()[p.system.n+p.system.hottest(p.solver.Y())] > lost*rise
}
