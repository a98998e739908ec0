package cure

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
)

// A shape is a program in the steps of a controller: ramps as indices of the list of rates,
// temperatures in whole °C, the first hold in steps of [holdStep]. With one hold r2 and t1
// have no meaning.
type shape struct {
	two    bool
	r1, t1 int // °C
	hold1  int
	r2, t2 int // °C; the last temperature, also with one hold
}

const (
	holdStep quantity.Time = 300
	// searchHorizon is the longest program thought of.
	searchHorizon quantity.Time = 96 * 3600
	// searchInterval is how far apart a run is looked at: the guard takes up what happens
	// between.
	searchInterval quantity.Time = 180
	// coldestHold is how far above the room's air a hold begins to be one.
	coldestHold = 5.0
)

// guard keeps the search off the limits by what its coarse cells and steps may hide.
type guard struct {
	kelvin quantity.Temperature
	degree float64
}

var firstGuard = guard{0.5, 5e-4}

// A search looks for the fastest program from one start.
type search struct {
	task   *Task
	stages [baths]stage
	from   quantity.Temperature // of the air at the start
	rates  []quantity.HeatingRate
	lowest int // °C
	top    int // °C
	guard  guard
}

// newSearch begins from the profiles that the baths have at the program's start.
func (t *Task) newSearch(stages [baths]stage, from quantity.Temperature, g guard) *search {
	s := &search{task: t, stages: stages, from: from, guard: g, rates: rates(t.Cure.Oven.Ramp)}
	top := t.Cure.Oven.Highest
	if t.mandrelInOven() && t.Mandrel.Material.Highest > 0 {
		top = min(top, t.Mandrel.Material.Highest)
	}
	s.top = int(math.Floor(top.Celsius() + 1e-9))
	s.lowest = min(s.top, int(math.Ceil(from.Celsius()+coldestHold)))
	return s
}

func (t *Task) mandrelInOven() bool { return !t.Cure.Free }

// rates are those that a controller is set to, at most 10 % apart, up to the oven's.
func rates(highest quantity.HeatingRate) []quantity.HeatingRate {
	var list []quantity.HeatingRate
	for r, step := 2.0, 1.0; ; r += step {
		rate := quantity.HeatingRate(r / 3600)
		if rate > highest*(1-1e-9) {
			return append(list, highest)
		}
		list = append(list, rate)
		for _, coarser := range []struct{ from, step float64 }{{20, 2}, {50, 5}, {120, 10}, {300, 30}, {1000, 100}} {
			if r >= coarser.from {
				step = coarser.step
			}
		}
	}
}

// program is a shape with its last hold, and the cooling.
func (s *search) program(x shape, last quantity.Time) Program {
	var p Program
	celsius := func(c int) quantity.Temperature { return quantity.Celsius(float64(c)) }
	if x.two && (x.hold1 > 0 || x.r1 != x.r2) {
		p.Steps = append(p.Steps, Step{Kind: Ramp, To: celsius(x.t1), Rate: s.rates[x.r1]})
		if x.hold1 > 0 {
			p.Steps = append(p.Steps, Step{Kind: Hold, To: celsius(x.t1), Hold: quantity.Time(x.hold1) * holdStep})
		}
		p.Steps = append(p.Steps, Step{Kind: Ramp, To: celsius(x.t2), Rate: s.rates[x.r2]})
	} else { // two ramps alike, without a hold between, are one
		p.Steps = append(p.Steps, Step{Kind: Ramp, To: celsius(x.t2), Rate: s.rates[x.r1]})
	}
	if last > 0 {
		p.Steps = append(p.Steps, Step{Kind: Hold, To: celsius(x.t2), Hold: last})
	}
	if to := celsius(x.t2); to > OutOfOven {
		p.Steps = append(p.Steps, Step{Kind: Cool, To: OutOfOven, Rate: s.task.Cure.Oven.Cooling})
	}
	return p
}

// verdict on a shape.
type verdict int

const (
	keeps verdict = iota
	late          // slower than what is known already
	breaks
)

// A trial is what a shape comes to.
type trial struct {
	shape
	verdict
	total quantity.Time // from the start to the end of cooling
	last  quantity.Time // the last hold
}

func (s *search) bounds(aimFrom quantity.Time) bounds {
	never := quantity.Temperature(math.Inf(1))
	b := bounds{
		exotherm: s.task.Cure.Exotherm - s.guard.kelvin, mandrel: never,
		lead: quantity.TemperatureDifference(math.Inf(-1)), aim: s.task.Aim() + s.guard.degree, aimFrom: aimFrom,
	}
	if s.task.mandrelInOven() && s.task.Mandrel.Material.Highest > 0 {
		b.mandrel = s.task.Mandrel.Material.Highest - s.guard.kelvin/4
	}
	if s.task.Cure.Free {
		b.lead = s.task.Cure.Margin + quantity.TemperatureDifference(s.guard.kelvin)
	}
	return b
}

// try follows a shape with the slow bath and, if it is faster than best, with the fast one.
func (s *search) try(x shape, best quantity.Time) (trial, error) {
	t := trial{shape: x, verdict: late}
	p := s.program(x, 0)
	heated, whole := p.HoldEnds(s.from), p.Lasts(s.from)
	horizon := min(best-(whole-heated), searchHorizon)
	if heated >= horizon {
		return t, nil
	}
	// The last hold is as long as it takes, so the cooling after it is left out.
	held := p
	if n := len(held.Steps); held.Steps[n-1].Kind == Cool {
		held.Steps = held.Steps[:n-1]
	}
	air, err := held.Air(0, s.from)
	if err != nil {
		return t, err
	}
	b, hottest := s.bounds(heated), p.Hottest(s.from)
	c, err := s.stages[slow].follow(s.task.inOven(slow, hottest), air, s.task.Cure.Oven.Loss, horizon, searchInterval, b, still.Working)
	switch {
	case err != nil:
		return t, err
	case !b.kept(c):
		t.verdict = breaks
		return t, nil
	case math.IsInf(float64(c.reached), 1):
		return t, nil
	}
	b.aim = math.Inf(1)
	f, err := s.stages[fast].follow(s.task.inOven(fast, hottest), air, s.task.Cure.Oven.Loss, c.reached, searchInterval, b, still.Working)
	if err != nil {
		return t, err
	}
	if !b.kept(f) {
		t.verdict = breaks
		return t, nil
	}
	t.verdict, t.last = keeps, c.reached-heated
	t.total = whole + t.last
	return t, nil
}
