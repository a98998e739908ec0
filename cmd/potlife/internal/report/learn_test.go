package report

import (
	"bytes"
	"strings"
	"testing"

	"potlife/schedule"
)

// TestLearnNamesItsFile: the line that a job takes is a path that the job can open.
func TestLearnNamesItsFile(t *testing.T) {
	for file, line := range map[string]string{
		"strut.learned.yaml":       "learned: ./strut.learned.yaml\n",
		"kept/strut.learned.yaml":  "learned: kept/strut.learned.yaml\n",
		"../strut.learned.yaml":    "learned: ../strut.learned.yaml\n",
		"/kept/strut.learned.yaml": "learned: /kept/strut.learned.yaml\n",
	} {
		r := NewLearn(&schedule.Learned{Name: "Strut", Resin: "resin"}, nil)
		r.File = file
		var out bytes.Buffer
		if err := r.Text(&out); err != nil {
			t.Fatal(err)
		}
		// The page may break its line before the path.
		if got := strings.ReplaceAll(out.String(), "\n  ", " "); !strings.Contains(got, line) {
			t.Errorf("-o %s does not say %q:\n%s", file, line, out.String())
		}
	}
}
