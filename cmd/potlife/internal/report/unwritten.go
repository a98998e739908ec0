package report

import "potlife/kinetics/warning"

// What a command was asked to write beside its answer and did not, since a crew might
// follow it.

// FileNotWritten is a file for the shop floor that would be empty or wrong.
type FileNotWritten struct {
	Path  string
	NoPot bool // none is left to be mixed; otherwise there is no plan
}

// Code names the kind.
func (FileNotWritten) Code() string { return "file-not-written" }

// ChartNotDrawn is a chart of a job that has no plan; what the path holds is older.
type ChartNotDrawn struct{ Path string }

// Code names the kind.
func (ChartNotDrawn) Code() string { return "chart-not-drawn" }

// unwritten has one of each kind.
var unwritten = []warning.Warning{FileNotWritten{}, ChartNotDrawn{}}

func sayUnwritten(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case FileNotWritten:
		if w.NoPot {
			return w.Path + " is not written, since no pot is left to be mixed", true
		}
		return w.Path + " is not written, since there is no plan to follow", true
	case ChartNotDrawn:
		return "no chart is drawn, since there is no plan to follow; " + w.Path + " is left as it was", true
	}
	return "", false
}
