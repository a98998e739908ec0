package fit

import (
	"fmt"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
)

// A Log is a cup test as a logger's file tells it. Times count from the first
// reading.
type Log struct {
	At []quantity.Time
	Is []quantity.Temperature

	Viscosities []ViscosityReading
	FlowTimes   []FlowReading

	// Begins is what the file's own clock showed at its first reading where it
	// counts elapsed time, 0 where it shows the time of day.
	Begins quantity.Time
	Notes  []warning.Warning // how the file was understood where it did not say so itself

	header int // its line, 0 for none
}

// A ViscosityReading is one of a log.
type ViscosityReading struct {
	At quantity.Time
	Is quantity.Viscosity
}

// A FlowReading is the time in which a flow cup ran empty.
type FlowReading struct {
	At   quantity.Time
	Took quantity.Time
}

// Span is the time from the first reading to the last.
func (l *Log) Span() quantity.Time { return l.At[len(l.At)-1] }

// A LogFault is what is wrong with a log.
type LogFault struct {
	File    string
	Line    int // from 1; 0: the whole file
	Excerpt string
	Problem string
	Mend    string
}

// Error shows where the fault is, the line and the mend.
func (f LogFault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	b.WriteString(": " + f.Problem)
	if f.Excerpt != "" {
		fmt.Fprintf(&b, "\n%5d | %s", f.Line, f.Excerpt)
	}
	b.WriteString("\n   " + f.Mend)
	return b.String()
}

// LogFaults are all faults of a log; never empty.
type LogFaults struct{ List []LogFault }

// mostLogFaults keeps the answer to a file that is no log readable.
const mostLogFaults = 10

// Error shows the faults one after another.
func (f *LogFaults) Error() string {
	parts := make([]string, 0, len(f.List))
	for _, fault := range f.List[:min(len(f.List), mostLogFaults)] {
		parts = append(parts, fault.Error())
	}
	if n := len(f.List); n > mostLogFaults {
		parts = append(parts, fmt.Sprintf("%d faults, the first %d are shown", n, mostLogFaults))
	}
	return strings.Join(parts, "\n")
}
