// Package warning is what an answer says about itself beside its figures: something that it
// depends on, or that looks wrong.
//
// A warning is a value. The package that finds it declares a type for it, whose fields are
// the figures in SI and whose code never changes; whether it stands is decided there. Its
// sentence, and all rounding, belong to cmd/potlife/internal/report alone, and no code looks
// into a sentence.
package warning

// A Warning is one kind of warning with its values.
type Warning interface {
	// Code names the kind for programs: lower case, words joined by hyphens.
	Code() string
}

// Codes are those of a list, in its order; never nil.
func Codes(list []Warning) []string {
	codes := make([]string, len(list))
	for i, w := range list {
		codes[i] = w.Code()
	}
	return codes
}
