package batches

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
)

// A Variant is the task with one thing done otherwise.
type Variant struct {
	What       string
	Task       *Task
	LastResort bool // tried only where there is no plan
}

// A Help is what a variant gains, from solving it anew.
type Help struct {
	What          string
	Gain          quantity.Time // of the least spare
	MakesFeasible bool          // there was no plan without it
	Changes       int           // more (or fewer) bath changes than without it
	Pots          int           // more (or fewer) pots
}

// longWinding is where helps are worked out on the first units only: they are
// advice, and need not cost several times the plan itself.
const longWinding = fineUnits

// leastGain is the gain worth telling, where nothing else changes.
const leastGain quantity.Time = 60

// Helps solves every variant on the sure bath of the plan and returns those
// that gain something, the best first. plan may be nil: then only what makes
// the job feasible helps. partial tells that a long winding was judged by its
// first units.
func Helps(t *Task, plan *Plan, variants []Variant) (helps []Help, partial bool, err error) {
	sure := ensemble.Sure(t.Spread, sureSteps[firstSure(len(t.Units))])
	if plan != nil {
		sure = plan.Member
	}
	if plan != nil {
		variants = slices.DeleteFunc(slices.Clone(variants), func(v Variant) bool { return v.LastResort })
	}
	all := append([]Variant{{Task: t}}, variants...)
	scores := make([]*Score, len(all))
	partial = len(t.Units) > longWinding
	err = ensemble.Each(len(all), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		found, _, err := best(all[i].Task.first(longWinding), sure, 0)
		if found != nil {
			scores[i] = &found.score
		}
		return err
	})
	if err != nil {
		return nil, partial, err
	}
	for i, v := range variants {
		if h := help(v.What, scores[0], scores[i+1]); h != nil {
			helps = append(helps, *h)
		}
	}
	slices.SortStableFunc(helps, func(a, b Help) int {
		return cmp.Or(cmp.Compare(a.Changes, b.Changes), -cmp.Compare(a.Gain, b.Gain))
	})
	return helps, partial, nil
}

func help(what string, without, with *Score) *Help {
	switch {
	case with == nil:
		return nil
	case without == nil:
		return &Help{What: what, Gain: with.Spare, MakesFeasible: true, Changes: with.Changes, Pots: with.Pots}
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

// first is the task cut to its first n units.
func (t *Task) first(n int) *Task {
	if len(t.Units) <= n {
		return t
	}
	cut := *t
	cut.Units = t.Units[:n]
	return &cut
}
