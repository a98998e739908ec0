package still

import (
	"math"
	"sort"

	"potlife/kinetics/ode"
	"potlife/kinetics/quantity"
)

// An observer sees each accepted step of a run and may end it.
type observer interface {
	// begin is called at the start of every smooth stretch.
	begin(p *Pot, t float64, y []float64)
	// step is called after every step; the run ends when it returns true.
	step(p *Pot) (stop bool)
}

// run follows the states loaded from t0 to t1 and leaves the states at the end,
// or at the step in which the observer stopped it, in p.y; kinks are further
// times at which to begin anew. It returns the time reached.
func (p *Pot) run(t0, t1 float64, kinks []float64, watch observer) (float64, error) {
	clear(p.system.piece)
	first := float64(p.precision.FirstStep)
	for t := t0; ; {
		p.turnPieces()
		end := math.Min(t1, math.Min(after(p.kinks, t), after(kinks, t)))
		s := p.system
		s.t0 = t
		s.roomK, s.roomKs = straight(p.room, t, end)
		s.wallK, s.wallKs = straight(p.wall, t, end)
		p.solver.Start(t, p.y, first)
		first = 0
		if watch != nil {
			watch.begin(p, t, p.y)
		}
		stopped, err := p.stretch(end, watch)
		copy(p.y, p.solver.Y())
		t = p.solver.T()
		if err != nil {
			hot := p.y[s.n+s.hottest(p.y)]
			return t, &RunError{At: quantity.Time(t), Hottest: quantity.Temperature(hot), Cause: err}
		}
		if stopped || t >= t1 {
			return t, nil
		}
	}
}

// after returns the first of ascending times after t, +Inf if there is none.
func after(times []float64, t float64) float64 {
	if i := sort.SearchFloat64s(times, math.Nextafter(t, math.Inf(1))); i < len(times) {
		return times[i]
	}
	return math.Inf(1)
}

// nearBreak is how far below a break of the rate law a cell may be when it is
// taken across with another: what that changes in α.
const nearBreak = 1e-7

// turnPieces gives each cell the piece of the rate law that its α is in.
func (p *Pot) turnPieces() {
	for i := range p.system.piece {
		for k := &p.system.piece[i]; *k < len(p.breaks) && p.y[i] >= p.breaks[*k]-nearBreak; *k++ {
			p.y[i] = math.Max(p.y[i], p.breaks[*k])
		}
	}
}

// stretch integrates to end or to where the first cell meets a break of the rate
// law, whichever comes first.
func (p *Pot) stretch(end float64, watch observer) (stopped bool, err error) {
	s := p.solver
	for s.T() < end {
		if err := s.Step(end); err != nil {
			return false, err
		}
		if at, found := p.firstBreak(); found && at < s.T() {
			// Step again to the break, so that the observer sees no state beyond.
			copy(p.y, s.YBefore())
			s.Start(s.Before(), p.y, at-s.Before())
			end = at
			continue
		}
		if watch != nil && watch.step(p) {
			return true, nil
		}
	}
	return false, nil
}

// firstBreak finds when in the last step the first cell meets a break.
func (p *Pot) firstBreak() (at float64, found bool) {
	at = math.Inf(1)
	if len(p.breaks) == 0 {
		return at, false
	}
	before, now := p.solver.YBefore(), p.solver.Y()
	for i, k := range p.system.piece {
		if k == len(p.breaks) || !(now[i] >= p.breaks[k]) {
			continue
		}
		t := ode.Root(func(t float64) float64 { return p.solver.Value(i, t) - p.breaks[k] },
			p.solver.Before(), p.solver.T(), before[i]-p.breaks[k], now[i]-p.breaks[k])
		at, found = math.Min(at, t), true
	}
	return at, found
}

// Advance follows a profile from one elapsed time to another, whatever it
// passes.
func (p *Pot) Advance(profile Profile, from, to quantity.Time) (Profile, error) {
	if err := p.load(profile); err != nil {
		return nil, err
	}
	if _, err := p.run(float64(from), float64(to), nil, nil); err != nil {
		return nil, err
	}
	return p.profile(p.y), nil
}

// A Sample is a profile at an elapsed time.
type Sample struct {
	At quantity.Time
	Profile
}

// Trace follows a profile from one elapsed time to another and returns samples of
// the way, every interval apart and at the end; an interval that is not positive
// leaves the end alone.
func (p *Pot) Trace(profile Profile, from, to, interval quantity.Time) ([]Sample, error) {
	if err := p.load(profile); err != nil {
		return nil, err
	}
	r := &recorder{from: float64(from), to: float64(to), interval: float64(interval), scratch: make([]float64, len(p.y))}
	if _, err := p.run(r.from, r.to, nil, r); err != nil {
		return nil, err
	}
	return append(r.samples, Sample{At: to, Profile: p.profile(p.y)}), nil
}

// recorder keeps samples of a run, read off the continuous extension.
type recorder struct {
	samples            []Sample
	from, to, interval float64
	scratch            []float64
}

func (r *recorder) begin(*Pot, float64, []float64) {}

func (r *recorder) step(p *Pot) bool {
	for r.interval > 0 {
		// Counted, not added up: sums of rounded intervals would drift.
		next := r.from + float64(len(r.samples))*r.interval
		if !(next < p.solver.T()) || r.to-next < 1e-6*r.interval {
			break
		}
		p.solver.At(next, r.scratch)
		r.samples = append(r.samples, Sample{At: quantity.Time(next), Profile: p.profile(r.scratch)})
	}
	return false
}
