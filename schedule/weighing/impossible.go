package weighing

import (
	"fmt"
	"regexp"
	"strings"
)

// Impossible refuses an input that cannot be true, by its name.
type Impossible struct {
	Input   string // as in the list of the package comment
	Problem string
	Mend    string
}

// Error says which input, what is wrong and what to do.
func (e *Impossible) Error() string { return e.Input + ": " + e.Problem + "; " + e.Mend }

func impossible(input, mend, problem string, args ...any) error {
	return &Impossible{Input: input, Problem: fmt.Sprintf(problem, args...), Mend: mend}
}

// Missing says what an answer needs and by which inputs it can be had.
type Missing struct {
	What         string
	Alternatives []string // any one of them will do; inputs stand in braces
}

// Error says what is missing and what would mend it.
func (e *Missing) Error() string {
	return e.What + " is missing; give " + e.Mend(func(input string) string { return input })
}

// braced is the name of an input in an alternative.
var braced = regexp.MustCompile(`\{[a-z ]+\}`)

// Mend lists the alternatives with each input called as call has it.
func (e *Missing) Mend(call func(input string) string) string {
	return braced.ReplaceAllStringFunc(strings.Join(e.Alternatives, ", or "), func(name string) string {
		return call(strings.Trim(name, "{}"))
	})
}
