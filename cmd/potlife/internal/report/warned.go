package report

import "potlife/kinetics/warning"

// Warned is what an answer says about itself: in JSON a list of sentences, and beside it, as
// long and in the same order, what the sentences are about, for programs.
type Warned struct {
	Warnings []string `json:"warnings"`
	Codes    []string `json:"warning_codes"`

	given []warning.Warning // the same as values
}

// NewWarned are warnings as an answer carries them.
func NewWarned(list ...warning.Warning) Warned {
	w := Warned{Warnings: []string{}, Codes: []string{}}
	w.Warn(list...)
	return w
}

// Warn adds to them.
func (w *Warned) Warn(list ...warning.Warning) {
	w.given = append(w.given[:len(w.given):len(w.given)], list...)
	w.Warnings = append(w.Warnings[:len(w.Warnings):len(w.Warnings)], Sentences(list)...)
	w.Codes = append(w.Codes[:len(w.Codes):len(w.Codes)], warning.Codes(list)...)
}

// Sentences are what people read of warnings, in their order; never nil.
func Sentences(list []warning.Warning) []string {
	texts := make([]string, len(list))
	for i, w := range list {
		texts[i] = sentence(w)
	}
	return texts
}

// speakers know the sentences of the warnings, each those of one area.
var speakers = []func(warning.Warning) (text string, known bool){
	sayRenamed,
	sayOtherProgram,
	sayFit,
	sayCopies,
	sayWeighing,
	sayScales,
	sayLearning,
	sayCure,
	sayDay,
	sayAdvice,
	saySchedule,
	sayBatches,
	sayUnwritten,
	sayPlan,
}

// sentence is what people read of a warning.
func sentence(w warning.Warning) (text string) {
	defer shown(w.Code(), &text)
	for _, say := range speakers {
		if text, known := say(w); known {
			return text
		}
	}
	panic("report: no sentence for the warning " + w.Code())
}
