package report

import (
	"fmt"
	"io"
)

// Interview is the JSON of resins new.
type Interview struct {
	File       string `json:"file"`
	Name       string `json:"name"`
	Statements int    `json:"statements"`
	Next       string `json:"next"` // command
	Warned
}

// Text says what was written and what to do next.
func (i *Interview) Text(w io.Writer) error {
	_, err := fmt.Fprintf(w, "%s: %s about %s; next: %s\n", i.File, plural(i.Statements, "statement"), i.Name, i.Next)
	return err
}
