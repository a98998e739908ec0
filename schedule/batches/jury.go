package batches

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/vessel"
)

// Judge follows the plan, pours and times as they are, with each member. The
// breach is the one that most of the failing members share, the earliest of
// those alike; nil when none fails.
func Judge(t *Task, plan *Plan, members []ensemble.Member) (Chance, *Breach, error) {
	return NewJury(t, plan).Judge(members)
}

// A Jury judges one plan of a task and follows each member once, however often it is asked.
type Jury struct {
	task   *Task
	plan   *Plan
	breach map[ensemble.Member]*Breach // of those followed, nil: it keeps the plan
}

// NewJury returns one that has followed nobody yet.
func NewJury(t *Task, plan *Plan) *Jury {
	return &Jury{task: t, plan: plan, breach: map[ensemble.Member]*Breach{}}
}

// Judge is [Judge] of the jury's plan.
func (j *Jury) Judge(members []ensemble.Member) (Chance, *Breach, error) {
	if err := j.follow(members); err != nil {
		return Chance{}, nil, err
	}
	breaches := make([]*Breach, len(members))
	kept, within := 0, 0
	for i, m := range members {
		b := j.breach[m]
		if breaches[i] = b; b == nil {
			kept++
		}
		if b == nil || b.Why == ByReserve {
			within++
		}
	}
	n := float64(len(members))
	return Chance{KeepsLimits: float64(within) / n, KeepsAll: float64(kept) / n}, mostCommon(breaches), nil
}

// follow lets those members live the plan that have not yet.
func (j *Jury) follow(members []ensemble.Member) error {
	var fresh []ensemble.Member
	for _, m := range members {
		if _, known := j.breach[m]; !known {
			j.breach[m], fresh = nil, append(fresh, m)
		}
	}
	breaches := make([]*Breach, len(fresh))
	err := ensemble.Each(len(fresh), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		c := newCrew(j.task, fresh[i])
		c.lifeHorizon, c.moments, c.judges = 0, 1, true
		var err error
		breaches[i], err = c.follow(j.plan)
		return err
	})
	for i, m := range fresh {
		j.breach[m] = breaches[i]
	}
	return err
}

// mostCommon returns the earliest of the breaches that occur most, by unit,
// reason and limit; nil for none.
func mostCommon(breaches []*Breach) *Breach {
	type kind struct {
		unit  int
		why   Reason
		limit vessel.Limit
	}
	count := map[kind]int{}
	var most *Breach
	of := func(b *Breach) kind { return kind{b.Unit, b.Why, b.Limit} }
	for _, b := range breaches {
		if b != nil {
			count[of(b)]++
		}
	}
	for _, b := range breaches {
		if b == nil {
			continue
		}
		if most == nil || count[of(b)] > count[of(most)] || count[of(b)] == count[of(most)] && b.At < most.At {
			most = b
		}
	}
	return most
}
