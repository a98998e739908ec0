package still

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Probe follows a profile as [Pot.Trace] does, but keeps of each moment only what a
// thermometer and a viscometer in the middle see: the temperature of the hottest
// resin and, of the most cured, the rest of its state. In a step these are sought
// among the cells that lead at its beginning or its end. It is for callers that
// run a thousand cups, to whom whole profiles cost as much as the integration.
func (p *Pot) Probe(profile Profile, from, to, interval quantity.Time) ([]vessel.Sample, error) {
	if err := p.load(profile); err != nil {
		return nil, err
	}
	r := &probe{from: float64(from), to: float64(to), interval: float64(interval)}
	if interval > 0 {
		r.samples = make([]vessel.Sample, 0, int((to-from)/interval)+2)
	}
	if _, err := p.run(r.from, r.to, nil, r); err != nil {
		return nil, err
	}
	hot, old := p.system.hottest(p.y), p.oldest(p.y)
	return append(r.samples, p.sample(r.to, hot, old, func(i int) float64 { return p.y[i] })), nil
}

// probe keeps the samples of a run for [Pot.Probe].
type probe struct {
	samples            []vessel.Sample
	from, to, interval float64
	hot, old           int // the leading cells at the beginning of the step
}

func (r *probe) begin(p *Pot, _ float64, y []float64) { r.hot, r.old = p.system.hottest(y), p.oldest(y) }

func (r *probe) step(p *Pot) bool {
	s, n := p.solver, p.system.n
	hot, old := p.system.hottest(s.Y()), p.oldest(s.Y())
	for r.interval > 0 {
		// Counted, not added up: sums of rounded intervals would drift.
		next := r.from + float64(len(r.samples))*r.interval
		if !(next < s.T()) || r.to-next < 1e-6*r.interval {
			break
		}
		warmer, older := hot, old
		if r.hot != hot && s.Value(n+r.hot, next) > s.Value(n+hot, next) {
			warmer = r.hot
		}
		if r.old != old && s.Value(r.old, next) > s.Value(old, next) {
			older = r.old
		}
		r.samples = append(r.samples, p.sample(next, warmer, older, func(i int) float64 { return s.Value(i, next) }))
	}
	r.hot, r.old = hot, old
	return false
}

// sample is the state of all the resin as a probe sees it; value gives a component.
func (p *Pot) sample(at float64, hot, old int, value func(i int) float64) vessel.Sample {
	n := p.system.n
	state := vessel.State{
		Mass: quantity.Mass(p.body.holds()), Alpha: value(old),
		Temperature: quantity.Temperature(value(n + hot)), LogExcess: p.excess[old],
	}
	if p.system.phi {
		state.Phi = value(2*n + old)
	}
	return vessel.Sample{At: quantity.Time(at), State: state}
}

// oldest is the index of the most cured cell that holds resin.
func (p *Pot) oldest(y []float64) int {
	best := -1
	for i, m := range p.system.net.Resin {
		if m > 0 && (best < 0 || y[i] > y[best]) {
			best = i
		}
	}
	return best
}
