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
