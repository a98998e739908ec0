package still

import "potlife/kinetics/quantity"

// A Glance sees a moment of a run: α and T in K of every cell, those without resin
// too. The slices are the run's own. It ends the run by returning true.
type Glance func(at quantity.Time, alpha, kelvin []float64) (stop bool)

// Follow follows a profile from one elapsed time to another and shows it every
// interval, read off the continuous extension, and at the end. It returns the
// profile and the time of the last glance. It is [Pot.Trace] for callers that look
// at thousands of runs and keep none of their states.
func (p *Pot) Follow(profile Profile, from, to, interval quantity.Time, glance Glance) (Profile, quantity.Time, error) {
	if err := p.load(profile); err != nil {
		return nil, from, err
	}
	if !(interval > 0) {
		return nil, from, &BodyError{"the interval in s", float64(interval), "give one above 0"}
	}
	f := &follower{glance: glance, from: float64(from), to: float64(to), interval: float64(interval), seen: make([]float64, len(p.y))}
	if _, err := p.run(f.from, f.to, nil, f); err != nil {
		return nil, quantity.Time(f.at), err
	}
	if !f.stopped {
		f.at = f.to
		copy(f.seen, p.y)
		n := p.system.n
		glance(to, f.seen[:n], f.seen[n:2*n])
	}
	return p.profile(f.seen), quantity.Time(f.at), nil
}

// follower calls a Glance at equal intervals.
type follower struct {
	glance             Glance
	from, to, interval float64
	next               int
	at                 float64
	seen               []float64
	stopped            bool
}

func (f *follower) begin(*Pot, float64, []float64) {}

func (f *follower) step(p *Pot) bool {
	for {
		// Counted, not added up: sums of rounded intervals would drift.
		next := f.from + float64(f.next)*f.interval
		if !(next < p.solver.T()) || f.to-next < 1e-6*f.interval {
			return false
		}
		f.next++
		f.at = next
		p.solver.At(next, f.seen)
		n := p.system.n
		if f.glance(quantity.Time(next), f.seen[:n], f.seen[n:2*n]) {
			f.stopped = true
			return true
		}
	}
}
