package still

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Probe follows a profile as [Pot.Trace] does, but keeps of each moment only what a
// thermometer and a viscometer in the middle see: the temperature of the hottest
// resin and, of the most cured, the rest of its state. It is for callers that run a
// thousand cups, to whom whole profiles cost as much as the integration.
func (p *Pot) Probe(profile Profile, from, to, interval quantity.Time) ([]vessel.Sample, error) {
	if err := p.load(profile); err != nil {
		return nil, err
	}
	r := &probe{from: float64(from), to: float64(to), interval: float64(interval), scratch: make([]float64, len(p.y))}
	if interval > 0 {
		r.samples = make([]vessel.Sample, 0, int((to-from)/interval)+2)
	}
	if _, err := p.run(r.from, r.to, nil, r); err != nil {
		return nil, err
	}
	return append(r.samples, p.sample(r.to, p.y)), nil
}

// probe keeps the samples of a run for [Pot.Probe].
type probe struct {
	samples            []vessel.Sample
	from, to, interval float64
	scratch            []float64
}

func (r *probe) begin(*Pot, float64, []float64) {}

func (r *probe) step(p *Pot) bool {
	for r.interval > 0 {
		// Counted, not added up: sums of rounded intervals would drift.
		next := r.from + float64(len(r.samples))*r.interval
		if !(next < p.solver.T()) || r.to-next < 1e-6*r.interval {
			break
		}
		p.solver.At(next, r.scratch)
		r.samples = append(r.samples, p.sample(next, r.scratch))
	}
	return false
}

// sample is the state of all the resin as a probe sees it.
func (p *Pot) sample(at float64, y []float64) vessel.Sample {
	n, old := p.system.n, p.mostCured(y)
	state := vessel.State{
		Mass: quantity.Mass(p.body.holds()), Alpha: y[old],
		Temperature: quantity.Temperature(y[n+p.system.hottest(y)]), LogExcess: p.excess[old],
	}
	if p.system.phi {
		state.Phi = y[2*n+old]
	}
	return vessel.Sample{At: quantity.Time(at), State: state}
}

// mostCured is the index of the most cured cell that holds resin.
func (p *Pot) mostCured(y []float64) int {
	best := -1
	for i, m := range p.system.net.Resin {
		if m > 0 && (best < 0 || y[i] > y[best]) {
			best = i
		}
	}
	return best
}
