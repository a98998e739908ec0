package vessel

import "potlife/kinetics/quantity"

// A Sample is a state at an elapsed time.
type Sample struct {
	At quantity.Time
	State
}

// Trace follows s from one elapsed time to another and returns the state there
// and samples of the way, every interval apart and at the end.
func (b *Bath) Trace(s State, from, to, interval quantity.Time, tow Tow) (State, []Sample, error) {
	r := &recorder{next: float64(from), interval: float64(interval)}
	_, err := b.run(&s, float64(from), float64(to), tow, r)
	return s, append(r.samples, Sample{At: to, State: s}), err
}

// recorder keeps samples of a run, read off the continuous extension.
type recorder struct {
	samples        []Sample
	next, interval float64
}

func (r *recorder) begin(*Bath, float64, []float64) {}

func (r *recorder) step(b *Bath) bool {
	for r.next < b.solver.T() {
		r.samples = append(r.samples, Sample{At: quantity.Time(r.next), State: b.stateAt(r.next)})
		r.next += r.interval
	}
	return false
}
