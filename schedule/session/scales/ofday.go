package scales

import (
	"errors"

	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/weighing"
)

// PartImpossible stands where what was weighed of the part cannot be true: it is left out.
type PartImpossible struct{ *weighing.Impossible }

// PartIncomplete stands where what was weighed of the part is too little for its fractions.
type PartIncomplete struct{ *weighing.Missing }

// Code names it for programs.
func (PartImpossible) Code() string { return "part-weighed-impossible" }

// Code names it for programs.
func (PartIncomplete) Code() string { return "part-weighed-incomplete" }

// DayWarnings has one of each kind that OfDay finds.
var DayWarnings = []warning.Warning{PartImpossible{&weighing.Impossible{}}, PartIncomplete{&weighing.Missing{}}}

// OfDay is what the scales say of the part of a day: no answer where they say too little, and a
// warning where it cannot be true.
func OfDay(w *schedule.Winding, all []session.Event) (*Answer, []warning.Warning, error) {
	sheet, err := Of(w, all)
	if err != nil || sheet.Weights.Empty() {
		return nil, nil, err
	}
	answer, err := sheet.Weigh()
	var impossible *weighing.Impossible
	var missing *weighing.Missing
	switch {
	case errors.As(err, &impossible):
		return nil, []warning.Warning{PartImpossible{impossible}}, nil
	case errors.As(err, &missing):
		return nil, []warning.Warning{PartIncomplete{missing}}, nil
	}
	return answer, nil, err
}
