package cure

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
)

// fastest finds by bisection the fastest rate with which a shape breaks nothing; set puts
// the index of a rate into the shape.
func (s *search) fastest(x shape, best quantity.Time, set func(*shape, int)) (trial, error) {
	found := trial{shape: x, verdict: breaks}
	low, high := 0, len(s.rates)-1
	for low <= high {
		middle := (low + high + 1) / 2
		if high == len(s.rates)-1 && low == 0 {
			middle = high // mostly the oven's own rate will do
		}
		set(&x, middle)
		t, err := s.try(x, best)
		if err != nil {
			return t, err
		}
		if t.verdict == breaks {
			high = middle - 1
			continue
		}
		found, low = t, middle+1
		if t.verdict == late {
			// Slower ramps take longer still: only faster ones are of use.
			continue
		}
		best = min(best, t.total)
	}
	return found, nil
}

func setFirst(x *shape, i int)  { x.r1 = i }
func setSecond(x *shape, i int) { x.r2 = i }

// better keeps the better of two trials.
func better(a, b trial) trial {
	if b.verdict == keeps && (a.verdict != keeps || b.total < a.total) {
		return b
	}
	return a
}

// forever is worse than any program.
var forever = quantity.Time(math.Inf(1))

func (t trial) time() quantity.Time {
	if t.verdict != keeps {
		return forever
	}
	return t.total
}

// each tries many things at once and returns the best.
func (s *search) each(n int, try func(i int) (trial, error)) ([]trial, error) {
	list := make([]trial, n)
	err := ensemble.Each(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		var err error
		list[i], err = try(i)
		return err
	})
	return list, err
}

// run returns the fastest program of one or two holds; its verdict is breaks or late where
// there is none. It looks with this search, and ends with the fine one, which may be the same.
func (s *search) run(fine *search) (trial, error) {
	best, known, err := s.oneHold()
	if err != nil {
		return best, err
	}
	one, err := s.refined(fine, best)
	if err != nil || s.direct(best, known) && one.verdict == keeps {
		return one, err
	}
	starts, err := s.twoHolds(best, known)
	if err != nil {
		return best, err
	}
	ends, err := s.each(len(starts), func(i int) (trial, error) { return s.downhill(starts[i]) })
	if err != nil {
		return best, err
	}
	slices.SortStableFunc(ends, fastestFirst)
	ends = ends[:min(len(ends), mostEnds)]
	ends, err = s.each(len(ends), func(i int) (trial, error) { return s.refined(fine, ends[i]) })
	two := trial{verdict: breaks}
	for _, t := range ends {
		two = better(two, t)
	}
	if one.verdict != keeps || two.time() < one.total*(1-worthTwo) {
		one = better(one, two)
	}
	return one, err
}

// mostEnds are gone on with by a finer search.
const mostEnds = 3

// refined goes on from a trial with a finer search: its rates found anew, and downhill.
func (s *search) refined(fine *search, t trial) (trial, error) {
	if fine == s || t.verdict != keeps {
		return t, nil
	}
	if t.two {
		again, err := fine.fastest(t.shape, forever, setSecond)
		if err != nil || again.verdict != keeps {
			if again, err = fine.fastest(t.shape, forever, setFirst); err != nil || again.verdict != keeps {
				return again, err
			}
		}
		return fine.downhill(again)
	}
	best := trial{shape: t.shape, verdict: breaks}
	for _, c := range []int{t.t2, t.t2 - 1, t.t2 + 1, t.t2 - 3} {
		x := shape{t2: c}
		if c < fine.lowest || c > fine.top {
			continue
		}
		again, err := fine.fastest(x, best.time(), setFirst)
		if err != nil {
			return best, err
		}
		best = better(best, again)
	}
	return best, nil
}

func fastestFirst(a, b trial) int { return cmp.Compare(a.time(), b.time()) }

// worthTwo is what a second ramp must save of the time to be worth its keys.
const worthTwo = 0.01

// direct tells that nothing but the oven's own ramp holds back the best program of one
// hold, nor any to hotter air: then its air is never colder than that of a program of two
// holds to the same temperature, and no such program is faster.
func (s *search) direct(best trial, known []trial) bool {
	full := func(t trial) bool { return t.verdict == keeps && t.r1 == len(s.rates)-1 }
	if !full(best) {
		return false
	}
	for _, t := range known {
		if t.t2 > best.t2 && !full(t) {
			return false
		}
	}
	return true
}

// Distances of the first look, in °C: between holds of one, and of two, the latter wider in
// ovens so hot that there would be more than a few.
const (
	oneStep  = 3
	twoStep  = 6
	twoSteps = 9
)

// oneHold looks at programs of one ramp and one hold, and keeps the best rate to each
// temperature.
func (s *search) oneHold() (best trial, known []trial, err error) {
	best.verdict = breaks
	var at []int
	for c := s.top; c >= s.lowest; c -= oneStep {
		at = append(at, c)
	}
	known, err = s.each(len(at), func(i int) (trial, error) { return s.fastest(shape{t2: at[i]}, forever, setFirst) })
	if err != nil {
		return best, nil, err
	}
	for _, t := range known {
		best = better(best, t)
	}
	if best.verdict != keeps {
		return best, known, nil
	}
	around := best.t2
	near, err := s.each(2*oneStep-1, func(i int) (trial, error) {
		x := shape{t2: around + i - (oneStep - 1)}
		if x.t2 < s.lowest || x.t2 > s.top || x.t2 == around {
			return trial{verdict: late}, nil
		}
		return s.fastest(x, best.total, setFirst)
	})
	for _, t := range near {
		best = better(best, t)
	}
	return best, known, err
}

// firstHolds that are tried at first, in steps of [holdStep].
var firstHolds = []int{0, 6, 12, 36, 96}

// mostStarts are gone downhill from.
const mostStarts = 8

// twoHolds looks at programs of two, and returns the best few.
func (s *search) twoHolds(best trial, known []trial) ([]trial, error) {
	var shapes []shape
	step := max(twoStep, (s.top-s.lowest)/twoSteps)
	for t2 := s.top; t2 > s.lowest; t2 -= step {
		for t1 := t2 - step; t1 >= s.lowest; t1 -= step {
			for _, hold := range firstHolds {
				x := shape{two: true, t1: t1, hold1: hold, t2: t2, r1: s.rateTo(known, t1)}
				shapes = append(shapes, x)
				if full := len(s.rates) - 1; x.r1 != full {
					x.r1 = full
					shapes = append(shapes, x)
				}
			}
		}
	}
	limit := forever
	if best.verdict == keeps {
		limit = best.total * 1.25 // downhill from there may still be better
	}
	trials, err := s.each(len(shapes), func(i int) (trial, error) { return s.fastest(shapes[i], limit, setSecond) })
	if err != nil {
		return nil, err
	}
	trials = slices.DeleteFunc(trials, func(t trial) bool { return t.verdict != keeps })
	slices.SortStableFunc(trials, fastestFirst)
	if len(trials) > mostStarts {
		trials = trials[:mostStarts]
	}
	return trials, nil
}

// rateTo is the best rate to the nearest temperature that was looked at.
func (s *search) rateTo(known []trial, celsius int) int {
	rate, nearest := len(s.rates)/2, math.MaxInt
	for _, t := range known {
		if d := max(t.t2-celsius, celsius-t.t2); d < nearest && t.verdict == keeps {
			rate, nearest = t.r1, d
		}
	}
	return rate
}

// downhill goes from a program to better ones in steps that halve.
func (s *search) downhill(from trial) (trial, error) {
	best := from
	for step := 4; step >= 1; {
		improved := false
		for _, move := range moves(step) {
			x := best.shape
			move(&x)
			if !s.sound(x) {
				continue
			}
			t, err := s.fastest(x, best.time(), setSecond)
			if err != nil {
				return best, err
			}
			if t.verdict == keeps && t.total < best.total-1 {
				best, improved = t, true
			}
		}
		if !improved {
			step /= 2
		}
	}
	return best, nil
}

func (s *search) sound(x shape) bool {
	return x.t1 >= s.lowest && x.t2 <= s.top && x.t1 < x.t2 && x.hold1 >= 0 && x.r1 >= 0 && x.r1 < len(s.rates)
}

func moves(step int) []func(*shape) {
	return []func(*shape){
		func(x *shape) { x.t1 += step }, func(x *shape) { x.t1 -= step },
		func(x *shape) { x.t2 += step }, func(x *shape) { x.t2 -= step },
		func(x *shape) { x.hold1 += 3 * step }, func(x *shape) { x.hold1 -= 3 * step }, func(x *shape) { x.hold1-- },
		func(x *shape) { x.r1 += step }, func(x *shape) { x.r1 -= step },
		func(x *shape) { x.t1 += step; x.hold1 -= 3 * step; x.hold1 = max(x.hold1, 0) },
		func(x *shape) { x.t1 -= step; x.hold1 += 3 * step },
		func(x *shape) { x.t1 += step; x.r1-- }, func(x *shape) { x.t1 -= step; x.r1++ },
	}
}
