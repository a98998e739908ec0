package vessel

import "potlife/kinetics/quantity"

// A Sample is a state at an elapsed time.
type Sample struct {
	At quantity.Time
	State
}

// Trace follows s from one elapsed time to another and returns the state there
// and samples of the way, every interval apart and at the end; an interval that
// is not positive leaves the end alone.
func (b *Bath) Trace(s State, from, to, interval quantity.Time, tow Tow) (State, []Sample, error) {
	r := &recorder{from: float64(from), to: float64(to), interval: float64(interval)}
	reached, err := b.run(&s, float64(from), float64(to), tow, r)
	return s, append(r.samples, Sample{At: quantity.Time(reached), State: s}), err
}

// Through follows s from one elapsed time to another and returns the state there. It lets see the state
// at each of the times given, which ascend; the way is the same without them.
func (b *Bath) Through(s State, from, to quantity.Time, tow Tow, at []quantity.Time, see func(i int, s State)) (State, error) {
	start := s
	p := &passenger{at: at, see: see}
	for ; p.seen < len(at) && at[p.seen] <= from; p.seen++ {
		see(p.seen, start)
	}
	_, err := b.run(&s, float64(from), float64(to), tow, p)
	for ; err == nil && p.seen < len(at); p.seen++ { // at the very end, but for rounding
		see(p.seen, s)
	}
	return s, err
}

// passenger sees states on the way, read off the continuous extension.
type passenger struct {
	at   []quantity.Time
	see  func(i int, s State)
	seen int
}

func (p *passenger) begin(*Bath, float64, []float64) {}

func (p *passenger) step(b *Bath) bool {
	for ; p.seen < len(p.at) && float64(p.at[p.seen]) <= b.solver.T(); p.seen++ {
		p.see(p.seen, b.stateAt(float64(p.at[p.seen])))
	}
	return false
}

// recorder keeps samples of a run, read off the continuous extension.
type recorder struct {
	samples            []Sample
	from, to, interval float64
}

func (r *recorder) begin(*Bath, float64, []float64) {}

func (r *recorder) step(b *Bath) bool {
	if !(r.interval > 0) {
		return false
	}
	for {
		// Counted, not added up: sums of rounded intervals would drift, and the
		// last could fall just short of the end, which has a sample of its own.
		next := r.from + float64(len(r.samples))*r.interval
		if !(next < b.solver.T()) || r.to-next < 1e-6*r.interval {
			return false
		}
		r.samples = append(r.samples, Sample{At: quantity.Time(next), State: b.stateAt(next)})
	}
}
