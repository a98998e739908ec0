package fit

import (
	"math"
	"slices"

	"potlife/kinetics"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// A run is one simulation and the tests that it answers: the same resin in the same
// vessel, watched for several ends or by several people, is followed once.
type run struct {
	tests    []*test
	alike    alike
	decisive []int             // parameters
	ends     []vessel.EndPoint // of pot lives, each once
	count    int               // residuals
	seen     memo
}

// alike is what tests must have in common to be answered by one run. A cup log has one
// of its own, since it has a first temperature of its own.
type alike struct {
	kind    Kind
	at      quantity.Temperature
	time    quantity.Time
	mass    quantity.Mass
	in      resins.Container
	assumed bool
	log     int
}

func (t *test) alike() alike {
	switch t.Kind {
	case PotLife:
		return alike{kind: PotLife, at: t.At, mass: t.Mass, in: t.In, assumed: t.Assumed}
	case Conversion, Glass: // one cure tells both
		return alike{kind: Conversion, at: t.At, time: t.Time}
	case CupLog:
		return alike{kind: CupLog, log: t.first}
	}
	return alike{kind: t.Kind, at: t.At}
}

// newRuns sorts the tests into runs, in the order of their first tests.
func newRuns(tests []*test, s *space) []*run {
	var runs []*run
	of := map[alike]int{}
	for _, t := range tests {
		key := t.alike()
		i, known := of[key]
		if !known {
			i = len(runs)
			of[key] = i
			runs = append(runs, &run{alike: key})
		}
		u := runs[i]
		t.run = i
		u.tests = append(u.tests, t)
		u.count += t.count
		for _, k := range t.decides(s) {
			if !slices.Contains(u.decisive, k) {
				u.decisive = append(u.decisive, k)
			}
		}
		if t.Kind == PotLife && !slices.Contains(u.ends, t.End) {
			u.ends = append(u.ends, t.End)
		}
	}
	return runs
}

// A prediction is what a run says of its tests: a figure of each, to be compared with
// [test.said], and their residuals over σ, one test after another.
type prediction struct{ figures, residuals []float64 }

// predict answers all tests of the run. What was asked before is remembered, but for what
// is worked out as fast as it is remembered.
func (u *run) predict(r *kinetics.Resin, s *space, x []float64) (prediction, error) {
	closed := u.alike.kind == Viscosity || u.alike.kind == Heat || u.alike.kind == FilmGel
	at := u.place(s, x)
	if !closed {
		if p, known := u.seen.recall(at); known {
			return p, nil
		}
	}
	p := prediction{make([]float64, len(u.tests)), make([]float64, u.count)}
	err := u.simulate(r, s, x, p)
	if err == nil && !closed {
		u.seen.keep(at, p)
	}
	return p, err
}

func (u *run) simulate(r *kinetics.Resin, s *space, x []float64, into prediction) error {
	first, kelvin := u.tests[0], float64(u.alike.at)
	switch u.alike.kind {
	case PotLife:
		times, err := u.lives(r, math.Exp(s.value(loss, x)))
		if err != nil {
			return err
		}
		for i, t := range u.tests {
			time := float64(times[slices.Index(u.ends, t.End)])
			if time > patience*float64(t.Time) {
				time = math.Inf(1)
			}
			into.figures[i], into.residuals[i] = time, bounded(math.Log(time/float64(t.Time)))/t.potLifeSigma()
		}
		return nil
	case FilmGel:
		time := timeTo(r, r.Gel, kelvin)
		for i, t := range u.tests {
			into.figures[i], into.residuals[i] = time, bounded(math.Log(time/float64(t.Time)))/timeSigma
		}
		return nil
	case Viscosity:
		log := r.Viscosity.LogFresh(kelvin)
		for i, t := range u.tests {
			into.figures[i], into.residuals[i] = math.Exp(log), (log-math.Log(float64(t.Value)))/viscositySigma
		}
		return nil
	case Conversion:
		is, err := conversionAfter(r, float64(u.alike.time), kelvin)
		for i, t := range u.tests {
			into.figures[i], into.residuals[i] = t.afterCure(r, is)
		}
		return err
	case Heat:
		for i, t := range u.tests {
			into.figures[i], into.residuals[i] = float64(r.Heat), math.Log(float64(r.Heat/t.Heat))/statedHeatSigma
		}
		return nil
	}
	figure, err := first.log.predict(r, first.Statement, math.Exp(s.value(loss, x)), s.value(first.first, x), into.residuals)
	into.figures[0] = figure
	return err
}

// afterCure is the figure and the residual of a test that is made after a cure to a conversion.
func (t *test) afterCure(r *kinetics.Resin, is float64) (figure, residual float64) {
	if t.Kind == Glass {
		glass := float64(r.Glass.At(is))
		return glass, (glass - float64(t.Glass)) / glassSigma
	}
	return is, bounded(logit(is)-logit(t.Is)) * t.Is * (1 - t.Is) / conversionSigma
}

// lives simulates a pot once for all ends that are asked of it, as long as the most patient
// of its tests.
func (u *run) lives(r *kinetics.Resin, losses float64) ([]quantity.Time, error) {
	s := u.tests[0].Statement
	longest := s.Time
	for _, t := range u.tests {
		longest = max(longest, t.Time)
	}
	pot := s.pot(r, losses, true)
	times, err := pot.TimesTo(*r, u.ends, patience*longest)
	if err == nil || len(u.ends) == 1 {
		return times, err
	}
	// What cannot be followed to the last end may well be followed to each.
	times = nil
	for _, end := range u.ends {
		time, err := pot.TimeTo(*r, end, patience*longest)
		if err != nil {
			return nil, err
		}
		times = append(times, time)
	}
	return times, nil
}
