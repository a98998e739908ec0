package session

import (
	"encoding/json"

	"potlife/kinetics/warning"
	"potlife/resins/fit"
)

// A LabelWarning is a warning of calibrating to the job's label as a journal keeps it.
type LabelWarning struct {
	Code   string          `json:"code"`
	Values json.RawMessage `json:"values"`
}

func keepLabel(list []warning.Warning) []LabelWarning {
	var kept []LabelWarning
	for _, w := range list {
		values, err := json.Marshal(w)
		if err != nil {
			panic("session: the warning " + w.Code() + " cannot be kept: " + err.Error())
		}
		kept = append(kept, LabelWarning{Code: w.Code(), Values: values})
	}
	return kept
}

// OfLabel are the warnings of calibrating that a start keeps.
func (e Event) OfLabel() []warning.Warning {
	var list []warning.Warning
	for _, sentence := range e.Label {
		list = append(list, AsRecorded{Sentence: sentence})
	}
	for _, kept := range e.LabelWarnings {
		w, known := fit.LabelWarning(kept.Code, kept.Values)
		if !known {
			w = AsRecorded{Kept: kept.Code, Values: string(kept.Values)}
		}
		list = append(list, w)
	}
	return list
}
