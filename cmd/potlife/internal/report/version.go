package report

import (
	"fmt"
	"io"
)

// A Version is what the program was built from; empty where nothing says so.
type Version struct {
	Version   string `json:"version"`
	Revision  string `json:"revision"`
	RevisedAt string `json:"revised_at"` // RFC 3339
	Modified  bool   `json:"modified"`   // beyond the revision
	Go        string `json:"go"`
	System    string `json:"system"`
}

// Text is one line.
func (v *Version) Text(w io.Writer) error {
	from := v.Version
	if from == "" {
		from = "without a version"
	}
	if v.Revision != "" {
		from += ", revision " + v.Revision[:min(len(v.Revision), 12)]
		if len(v.RevisedAt) >= len("2006-01-02") {
			from += " of " + v.RevisedAt[:len("2006-01-02")]
		}
		if v.Modified {
			from += ", changed since"
		}
	}
	_, err := fmt.Fprintf(w, "potlife %s (%s, %s)\n", from, v.Go, v.System)
	return err
}
