package daytest

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/batches"
)

// AsPlanned logs what happens when everything goes by a plan.
func (d *Day) AsPlanned(p *batches.Plan) {
	minutes := func(at quantity.Time) float64 { return float64(at) / 60 }
	unit, units := 0, d.W.Task.Units
	for i, pour := range p.Pours {
		last := len(units)
		if i+1 < len(p.Pours) {
			last = p.Pours[i+1].Stop
		}
		inside := unit > 0 && !units[unit-1].EndsLayer
		if inside {
			d.Pause(minutes(p.End[unit-1]))
		}
		if pour.Into == batches.Change {
			d.Changed(minutes(p.End[unit-1]))
		}
		var pots []int
		for _, pot := range pour.Pots {
			pots = append(pots, d.MixedParts(minutes(pot.MixAt), pot.Resin.In("g"), pot.Hardener.In("g")))
		}
		for _, pot := range pots {
			d.Poured(minutes(pour.At), pot)
		}
		if inside {
			d.Resume(minutes(p.Start[unit]))
		}
		for ; unit < last; unit++ {
			if unit == 0 || units[unit-1].EndsLayer {
				d.Begin(minutes(p.Start[unit]), units[unit].Layer+1)
			}
			if units[unit].EndsLayer {
				d.Done(minutes(p.End[unit]), units[unit].Layer+1)
			}
		}
	}
}
