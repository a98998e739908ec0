package report

import (
	"fmt"
	"io"
)

// Text says where the page is, if it was written, and sums the day up.
func (d *Day) Text(w io.Writer, path string) error {
	if path == "" {
		say(w, "the day of "+d.Session, "", "  ")
	} else if _, err := fmt.Fprintf(w, "%s is written: the day of %s\n", path, d.Session); err != nil {
		return err
	}
	section(w, "In short", d.Verdict)
	return nil
}
