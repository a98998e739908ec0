package report

import (
	"fmt"
	"io"

	"potlife/kinetics/warning"
)

// Interview is the JSON of resins new.
type Interview struct {
	File       string `json:"file"`
	Name       string `json:"name"`
	Statements int    `json:"statements"`
	Next       string `json:"next"` // command
	Warned
}

// NewInterview builds the report of a file of statements that was asked for.
func NewInterview(file, name string, statements int, warnings []warning.Warning) *Interview {
	return &Interview{
		File: file, Name: name, Statements: statements, Warned: NewWarned(warnings...),
		Next: fmt.Sprintf("potlife resins fit %s -o %s.yaml", file, name),
	}
}

// Text says what was written and what to do next.
func (i *Interview) Text(w io.Writer) error {
	_, err := fmt.Fprintf(w, "%s: %s about %s; next: %s\n", i.File, plural(i.Statements, "statement"), i.Name, i.Next)
	return err
}
