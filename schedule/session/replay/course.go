package replay

import (
	"math"
	"slices"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session"
)

// A Course is the bath of a day, as all readings of the day leave it in doubt.
type Course struct {
	At          []quantity.Time
	Temperature []Quantiles[quantity.Temperature] // NaN: the bath is empty
	Viscosity   []Quantiles[quantity.Viscosity]   // +Inf: it has gelled; NaN: it is empty
	// Readings are what the bath had at each reading of the script: K, or Pa·s.
	Readings []Quantiles[float64]
}

// Quantiles are the 10, 50 and 90 % quantiles of the members by their weight.
type Quantiles[T ~float64] struct{ Low, Likely, High T }

// courseMembers stand for all members along a course: two dozen would do for the quantiles
// within their own doubt, forty make a smooth edge.
const courseMembers = 40

// Course follows the bath through the day to the times given, ascending and not beyond
// [Played.Now]. A time that is given twice is told twice: before and after what happened
// then.
func (p *Played) Course(at []quantity.Time) (*Course, error) {
	few := p.Few(courseMembers)
	lived := make([]*courses, len(few))
	err := ensemble.Each(len(few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		lived[i], err = p.Script.course(few[i].Member, at)
		return err
	})
	if err != nil {
		return nil, err
	}
	values, weights := make([]float64, len(few)), make([]float64, len(few))
	for i := range few {
		weights[i] = few[i].Weight
	}
	of := func(value func(*courses) float64) (low, likely, high float64) {
		for i, c := range lived {
			values[i] = value(c)
		}
		return ensemble.Quantile(0.1, values, weights), ensemble.Quantile(ensemble.LikelyQuantile, values, weights), ensemble.Quantile(0.9, values, weights)
	}
	c := &Course{At: at}
	for k := range at {
		c.Temperature = append(c.Temperature, quantiles[quantity.Temperature](of(func(c *courses) float64 { return c.temperature[k] })))
		c.Viscosity = append(c.Viscosity, quantiles[quantity.Viscosity](of(func(c *courses) float64 { return c.viscosity[k] })))
	}
	for k := range p.Script.Readings {
		c.Readings = append(c.Readings, quantiles[float64](of(func(c *courses) float64 { return c.says[k] })))
	}
	return c, nil
}

func quantiles[T ~float64](low, likely, high float64) Quantiles[T] {
	return Quantiles[T]{Low: T(low), Likely: T(likely), High: T(high)}
}

// Moments are some n times evenly from the first pour to the last event that touches the
// bath, and those at which layers begin and end, and twice each at which the bath is poured
// into or emptied. Nothing without a pour.
func (s *Script) Moments(n int) []quantity.Time {
	first := slices.IndexFunc(s.steps, func(st step) bool { return st.do == pour })
	if first < 0 {
		return nil
	}
	from := quantity.Time(s.steps[first].at)
	until := from
	var at, twice []quantity.Time
	for _, st := range s.steps[first:] {
		switch st.do {
		case weighed:
			continue // perhaps the next morning
		case pour, empty:
			twice = append(twice, quantity.Time(st.at))
		case begun, finished:
			at = append(at, quantity.Time(st.at))
		}
		until = quantity.Time(st.at)
	}
	for k := range n {
		at = append(at, from+(until-from)*quantity.Time(k)/quantity.Time(max(1, n-1)))
	}
	at = append(at, twice...)
	slices.Sort(at)
	at = slices.Compact(at)
	for _, t := range slices.Compact(twice) {
		if i, found := slices.BinarySearch(at, t); found {
			at = slices.Insert(at, i, t)
		}
	}
	return at
}

// Index is that of a moment among those of the course, after what happened then; -1: it is
// not among them.
func (c *Course) Index(t quantity.Time) int {
	i, found := slices.BinarySearch(c.At, t)
	switch {
	case !found:
		return -1
	case i+1 < len(c.At) && c.At[i+1] == t:
		return i + 1
	}
	return i
}

// courses are the bath as one member lives it: K, Pa·s, and what it says to the readings.
type courses struct{ temperature, viscosity, says []float64 }

// course plays the whole day with a member and stops at the times given.
func (s *Script) course(m ensemble.Member, at []quantity.Time) (*courses, error) {
	w := s.unplayed(m)
	c := &courses{}
	if len(s.spare) > 0 {
		w.spare = &spares{left: s.spare, says: make([]float64, len(s.Readings))}
	}
	next := 0 // step
	for k, t := range at {
		before := k+1 < len(at) && at[k+1] == t
		for next < len(s.steps) && (s.steps[next].at < float64(t) || !before && s.steps[next].at == float64(t)) {
			if err := w.take(next); err != nil {
				return nil, err
			}
			next++
		}
		if err := w.pass(float64(t), false); err != nil {
			return nil, err
		}
		c.add(w)
	}
	for ; next < len(s.steps); next++ { // for what it says to the readings
		if err := w.take(next); err != nil {
			return nil, err
		}
	}
	c.says = make([]float64, len(s.Readings))
	for k := range s.Readings {
		switch r := &s.Readings[k]; {
		case r.spare:
			c.says[k] = w.spare.says[k]
		default:
			c.says[k] = w.says[r.slot]
		}
		if s.Readings[k].Viscous {
			c.says[k] = math.Exp(c.says[k])
		}
	}
	return c, nil
}

// spares are readings that no step stops at: what a world says to them is read off the way between
// two steps.
type spares struct {
	left []int     // indices of those to come
	says []float64 // to each reading of the script: K or ln η; 0 K where the bath is empty, as it is
}

// advance follows the bath of a world to end.
func (sp *spares) advance(w *World, end float64, tow vessel.Tow) (vessel.State, error) {
	for len(sp.left) > 0 && float64(w.script.Readings[sp.left[0]].At) < w.now { // the bath was empty
		sp.left = sp.left[1:]
	}
	n := 0
	var at []quantity.Time
	for ; n < len(sp.left); n++ {
		r := &w.script.Readings[sp.left[n]]
		if float64(r.At) > end {
			break
		}
		at = append(at, r.At)
	}
	reached := sp.left[:n]
	sp.left = sp.left[n:]
	return w.bath.Through(w.Bath, quantity.Time(w.now), quantity.Time(end), tow, at, func(i int, s vessel.State) {
		k := reached[i]
		if sp.says[k] = float64(s.Temperature); w.script.Readings[k].Viscous {
			sp.says[k] = w.logViscosityOf(s)
		}
	})
}

func (c *courses) add(w *World) {
	temperature, viscosity := math.NaN(), math.NaN()
	if w.Bath.Mass > 0 {
		temperature, viscosity = float64(w.Bath.Temperature), math.Exp(w.logViscosity())
	}
	c.temperature, c.viscosity = append(c.temperature, temperature), append(c.viscosity, viscosity)
}

// Until is when the whole day is known: at its finish, or else when the last event happened
// that was not taken back.
func (j *Journal) Until() time.Time {
	if !j.Ended.IsZero() {
		return j.Ended // notes and weights come later
	}
	active := session.Active(j.Events)
	return active[len(active)-1].At
}
