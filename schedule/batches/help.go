package batches

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
)

// A Remedy is one thing done otherwise.
type Remedy struct {
	Kind  RemedyKind
	By    quantity.TemperatureDifference // warmer, of a temperature
	Times float64                        // as much, of anything else that has a size
}

// RemedyKind is what is done otherwise.
type RemedyKind string

// The kinds.
const (
	ResinTemperature RemedyKind = "resin-temperature" // as mixed
	RoomTemperature  RemedyKind = "room-temperature"
	PotSize          RemedyKind = "pot-size" // of pots and bath
	HardenerRate     RemedyKind = "hardener-rate"
	TowSpeed         RemedyKind = "tow-speed"
	StopsInside      RemedyKind = "stops-inside-layers"
)

// A Variant is the task with one thing done otherwise.
type Variant struct {
	What       Remedy
	Task       *Task
	LastResort bool // tried only where there is no plan
}

// A Help is what a variant gains, from solving it anew.
type Help struct {
	What          Remedy
	Gain          quantity.Time // of the least spare
	MakesFeasible bool          // there was no plan without it
	Part          bool          // judged on a part of the winding: the rest may still break it
	Changes       int           // more (or fewer) bath changes than without it
	Pots          int           // more (or fewer) pots
}

// longWinding is where helps are worked out on a part of the winding only: they
// are advice, and need not cost several times the plan itself.
const longWinding = 30

// leastGain is the gain worth telling, where nothing else changes.
const leastGain quantity.Time = 60

// Helps solves every variant anew and returns those that gain something, the
// best first. Where the task has a plan, each variant is searched on the plan's
// own sure bath and the gain is that of the least spare; where it has none,
// each is solved whole, ensemble and referee included, and what makes a plan
// possible helps. A long winding is judged by a part of it: its first layers, or those
// around the one that broke it.
func Helps(t *Task, s *Solution, variants []Variant) (helps []Help, err error) {
	whole := wholeOf(t)
	part := around(whole.from, whole)
	if !s.Feasible() && s.Breach != nil {
		part = around(t.Units[min(s.Breach.Unit, len(t.Units)-1)].Layer, whole)
	}
	if s.Feasible() {
		helps, err = gains(t, s.Plan.Member, part, variants)
	} else {
		helps, err = cures(part, variants)
	}
	slices.SortStableFunc(helps, func(a, b Help) int {
		return cmp.Or(cmp.Compare(a.Changes, b.Changes), -cmp.Compare(a.Gain, b.Gain))
	})
	return helps, err
}

// gains compares variants with the task itself on one sure bath.
func gains(t *Task, sure Sure, part window, variants []Variant) ([]Help, error) {
	tasks := []*Task{t}
	var remedies []Remedy
	for _, v := range variants {
		if !v.LastResort {
			tasks, remedies = append(tasks, v.Task), append(remedies, v.What)
		}
	}
	scores := make([]*Score, len(tasks))
	err := ensemble.Each(len(tasks), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		search := newSearcher(part.of(tasks[i]))
		if part != wholeOf(t) {
			search.grain = max(search.grain, 1) // as the winding itself was
		}
		found, _, err := search.best(sure, 0)
		if found != nil {
			scores[i] = &found.score
		}
		return err
	})
	if err != nil || scores[0] == nil {
		return nil, err
	}
	var helps []Help
	for i, what := range remedies {
		if h := gain(what, scores[0], scores[i+1]); h != nil {
			h.Part = part != wholeOf(t)
			helps = append(helps, *h)
		}
	}
	return helps, nil
}

func gain(what Remedy, without, with *Score) *Help {
	if with == nil {
		return nil
	}
	h := &Help{
		What: what, Gain: with.Spare - without.Spare,
		Changes: with.Changes - without.Changes, Pots: with.Pots - without.Pots,
	}
	if math.IsNaN(float64(h.Gain)) {
		h.Gain = 0 // neither ever ends
	}
	if h.Changes < 0 || h.Changes == 0 && h.Gain >= leastGain {
		return h
	}
	return nil
}

// cures solves variants of a task without a plan.
func cures(part window, variants []Variant) ([]Help, error) {
	found := make([]*Help, len(variants))
	// One after another: each solution uses all processors itself.
	for i, v := range variants {
		s, err := Solve(part.of(v.Task))
		if err != nil {
			return nil, err
		}
		if s.Feasible() {
			score := s.Plan.Score
			found[i] = &Help{
				What: v.What, Gain: score.Spare, MakesFeasible: part == wholeOf(v.Task), Part: part != wholeOf(v.Task),
				Changes: score.Changes, Pots: score.Pots,
			}
		}
	}
	var helps []Help
	for _, h := range found {
		if h != nil {
			helps = append(helps, *h)
		}
	}
	return helps, nil
}

// A window is a part of the layers of a winding, the last included.
type window struct{ from, to int }

// wholeOf is all layers of a task.
func wholeOf(t *Task) window { return window{t.Units[0].Layer, t.Units[len(t.Units)-1].Layer} }

// around is the part of a long winding around one of its layers.
func around(layer int, whole window) window {
	from := max(whole.from, min(layer-longWinding/2, whole.to-longWinding+1))
	return window{from, min(from+longWinding-1, whole.to)}
}

// of is the task cut to the layers of the window, however they are divided. One
// that does not hold the first unit begins like an ordinary plan, with an empty
// bath on a clean mandrel, at the same hour: what there is now will be gone then.
func (w window) of(t *Task) *Task {
	if w == wholeOf(t) {
		return t
	}
	cut := *t
	cut.Units = nil
	for _, u := range t.Units {
		if u.Layer >= w.from && u.Layer <= w.to {
			cut.Units = append(cut.Units, u)
		}
	}
	if w.from > t.Units[0].Layer {
		cut.Begin, cut.Heel = Beginning{At: t.Begin.At}, nil
	}
	return &cut
}
