package scales

import (
	"errors"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/weighing"
)

// A Sheet is all that is known of a part that is weighed. The zero value knows
// nothing.
type Sheet struct {
	Weights session.Weights      // what was weighed and measured
	Target  resins.FibreFraction // zero: the job's, if there is one
	Band    quantity.Fraction    // 0: the usual one

	day *day // nil: there is no session
}

// Of is the sheet of a session. The winding is that of its job.
//
// The error is a [*session.Refusal] for a journal whose events cannot have
// happened.
func Of(w *schedule.Winding, all []session.Event) (*Sheet, error) {
	d, err := gather(w, all)
	if err != nil {
		return nil, err
	}
	return &Sheet{Weights: session.WeightsOf(all), day: d}, nil
}

// Add puts what is said now over what is known.
func (s *Sheet) Add(w session.Weights) { s.Weights = w.Over(s.Weights) }

// A Loss is resin that the job expects beside the part and that was not weighed.
type Loss struct {
	What LossKind
	Mass quantity.Mass
}

// A LossKind is where resin goes.
type LossKind int

// The losses that a job reckons with.
const (
	LeftInCups LossKind = iota // of those that were poured
	WipedOff
)

// An Answer is what the part was made of, with what a session adds to it.
type Answer struct {
	*weighing.Result
	Input    weighing.Input
	Expected []Loss // among what is unaccounted for
}

// balanceRefuted tells whether the part holds so much resin that what is left of the mixed
// resin cannot be as it was weighed.
func (a *Answer) balanceRefuted() bool {
	return slices.ContainsFunc(a.Disagreements, func(d weighing.Disagreement) bool { return d.Of == weighing.Unaccounted })
}

// Weigh tells what the part is made of. The error is that of [weighing.Weigh].
func (s *Sheet) Weigh() (*Answer, error) {
	in := s.input()
	result, err := weighing.Weigh(in)
	if err != nil {
		return nil, err
	}
	a := &Answer{Result: result, Input: in, Expected: []Loss{}}
	if s.day != nil {
		a.Assumed = append(s.day.assumed(s.Weights), a.Assumed...)
		a.Warnings = append(s.day.open(s.Weights), a.Warnings...)
		a.Expected = s.day.expected(s.Weights)
	}
	return a, nil
}

// WeighIfPossible is [Sheet.Weigh], but where nothing was weighed of the part there is no
// answer, and where it was in vain a warning in place of the error.
func (s *Sheet) WeighIfPossible() (*Answer, []warning.Warning, error) {
	if s.Weights.Empty() {
		return nil, nil, nil
	}
	a, err := s.Weigh()
	var impossible *weighing.Impossible
	var missing *weighing.Missing
	switch {
	case errors.As(err, &impossible):
		return nil, []warning.Warning{PartImpossible{Input: impossible.Input, Problem: impossible.Problem}}, nil
	case errors.As(err, &missing):
		return nil, []warning.Warning{PartIncomplete{missing.What}}, nil
	}
	return a, nil, err
}

// input is the sheet as the weighing takes it.
func (s *Sheet) input() weighing.Input {
	in := weighing.Input{}
	if s.day != nil {
		s.day.fill(&in, s.Weights)
	}
	fill(&in, s.Weights)
	in.Band = s.Band
	if s.Target.Value != 0 {
		in.Target = s.Target
	}
	return in
}

// missing tells whether an answer only lacks inputs, and none is wrong.
func missing(err error) bool {
	var m *weighing.Missing
	return errors.As(err, &m)
}
