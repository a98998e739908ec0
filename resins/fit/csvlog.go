package fit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
)

// Bounds on what is read: two days of readings each second.
const (
	mostLines   = 200_000
	leastPoints = 4
)

// A logReader reads one log. A fault is kept, and the reading goes on where it
// can.
type logReader struct {
	file      string
	rows      []row // of cells, without blank lines
	decimal   rune  // ',' or '.'
	delimiter rune
	columns   columns
	notes     []warning.Warning
	faults    []LogFault
}

// A row is a line cut into its cells.
type row struct {
	line  int // from 1
	text  string
	cells []string
}

// ReadLog reads a table of times and temperatures: any delimiter, decimal point
// or comma, with a header or without, elapsed times or the time of day. What the
// file leaves open is decided where only one reading makes sense, and told in
// the notes; otherwise it is refused. The error is a [*LogFaults].
func ReadLog(file string, source []byte) (*Log, error) {
	r := &logReader{file: file}
	l := r.read(source)
	if len(r.faults) > 0 {
		return nil, &LogFaults{List: r.faults}
	}
	l.Notes = r.notes
	return l, nil
}

func (r *logReader) read(source []byte) *Log {
	if len(source) > resins.LargestFile {
		r.faults = append(r.faults, tooLarge(r.file, &resins.TooLarge{Bytes: int64(len(source))}))
		return nil
	}
	lines := r.lines(source)
	if len(r.faults) > 0 {
		return nil
	}
	if len(lines) == 0 {
		r.fault(row{}, "there is nothing in the file", "write a time and a temperature on each line")
		return nil
	}
	if !r.cut(lines) {
		return nil
	}
	header, first := r.header()
	if first < 0 {
		r.fault(r.rows[0], "no line of the file holds a time and a number", "write a time and a temperature on each line: 09:30:00;23.5")
		return nil
	}
	if !r.assign(header, r.rows[first:]) {
		return nil
	}
	l := &Log{}
	if header >= 0 {
		l.header = r.rows[header].line
	}
	r.fill(l, r.rows[first:])
	return l
}

func (r *logReader) fault(at row, problem, mend string) {
	r.faults = append(r.faults, LogFault{File: r.file, Line: at.line, Excerpt: shown(at.text), Problem: problem, Mend: mend})
}

// tooLarge is the fault of a log of too many bytes.
func tooLarge(file string, e *resins.TooLarge) LogFault {
	return LogFault{File: file, Problem: "the log is too large: " + e.Error(), Mend: thinOut(float64(e.Bytes) / resins.LargestFile)}
}

// thinOut is how to make a log so many times smaller.
func thinOut(times float64) string {
	if !(times > 1) { // not known
		times = 10
	}
	return fmt.Sprintf("keep the header and one line in %.0f, from the first to the last reading", math.Ceil(times))
}

// readLogFile returns the content of a log; what says what kind it should be.
func readLogFile(path, what string) ([]byte, error) {
	source, err := resins.ReadFile(path, what)
	var large *resins.TooLarge
	if errors.As(err, &large) {
		return nil, &LogFaults{List: []LogFault{tooLarge(path, large)}}
	}
	return source, err
}

func (r *logReader) note(n warning.Warning) { r.notes = append(r.notes, n) }

// shown makes a line of the file fit to stand in a message.
func shown(text string) string {
	runes := []rune(strings.Map(func(c rune) rune {
		if c == '\t' || unicode.IsSpace(c) {
			return ' '
		}
		if !unicode.IsPrint(c) {
			return unicode.ReplacementChar
		}
		return c
	}, text))
	if len(runes) > 70 {
		return string(runes[:70]) + "…"
	}
	return string(runes)
}

// lines decodes the text and returns its lines that are not blank.
func (r *logReader) lines(source []byte) []row {
	text := r.decode(source)
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	text = strings.TrimRight(text, "\n") // the end of the last line begins no other
	if n := strings.Count(text, "\n") + 1; n > mostLines {
		r.fault(row{}, fmt.Sprintf("the log has %d lines, at most %d are read", n, mostLines), thinOut(float64(n)/mostLines))
		return nil
	}
	var rows []row
	for i, line := range strings.Split(text, "\n") {
		if strings.ContainsFunc(line, func(c rune) bool { return c != '\t' && unicode.IsControl(c) }) {
			r.fault(row{line: i + 1, text: line}, "the line holds characters that are no text", "export the log as CSV")
			return nil
		}
		if strings.Trim(line, " \t;,\"\u00a0") != "" {
			rows = append(rows, row{line: i + 1, text: line})
		}
	}
	return rows
}

// decode understands UTF-8, UTF-16 with its mark, and Latin-1, in which many
// loggers write their degree sign.
func (r *logReader) decode(source []byte) string {
	switch {
	case len(source) >= 2 && (source[0] == 0xff && source[1] == 0xfe || source[0] == 0xfe && source[1] == 0xff):
		low, high := 0, 1
		if source[0] == 0xfe {
			low, high = 1, 0
		}
		units := make([]uint16, 0, len(source)/2)
		for i := 2; i+1 < len(source); i += 2 {
			units = append(units, uint16(source[i+low])|uint16(source[i+high])<<8)
		}
		return string(utf16.Decode(units))
	case utf8.Valid(source):
		return strings.TrimPrefix(string(source), "\ufeff")
	}
	runes := make([]rune, len(source))
	for i, b := range source {
		runes[i] = rune(b)
	}
	return string(runes)
}

// fill turns the rows into readings.
func (r *logReader) fill(l *Log, rows []row) {
	clock := clock{unit: r.columns.timeUnit, form: r.columns.form}
	skipped, merged := 0, 0
	for _, w := range rows {
		t, ok := r.time(&clock, w)
		if !ok {
			if len(r.faults) >= mostLogFaults {
				return
			}
			continue
		}
		at := quantity.Time(t)
		if n := len(l.At); n > 0 && at < l.At[n-1] {
			r.fault(w, "the time goes back", "put the lines in order, or take the wrong one out")
			return
		}
		r.extras(l, w, at)
		kelvin, present := r.temperature(w)
		switch n := len(l.At); {
		case !present:
			skipped++
		case n > 0 && at == l.At[n-1]:
			merged++ // a clock that shows minutes
		default:
			l.At, l.Is = append(l.At, at), append(l.Is, kelvin)
		}
	}
	if len(r.faults) > 0 {
		return
	}
	if skipped > 0 {
		r.note(WithoutTemperature{File: r.file, Lines: skipped})
	}
	if merged > 0 {
		r.note(SameTime{File: r.file, Readings: merged})
	}
	if len(l.At) < leastPoints {
		r.fault(row{}, fmt.Sprintf("the log has %d readings of temperature at different times, at least %d are needed", len(l.At), leastPoints), "let the logger run until the cup has cooled again")
		return
	}
	r.fromFirst(l, clock.elapsed)
}

// fromFirst makes the times count from the first reading.
func (r *logReader) fromFirst(l *Log, elapsed bool) {
	zero := l.At[0]
	if elapsed && zero > 0 {
		l.Begins = zero
		r.note(ZeroIsMixing{File: r.file, First: zero})
	}
	for i := range l.At {
		l.At[i] -= zero
	}
	for i := range l.Viscosities {
		l.Viscosities[i].At -= zero
	}
	for i := range l.FlowTimes {
		l.FlowTimes[i].At -= zero
	}
	if span := l.Span(); !(span >= 60) || span > 30*86400 {
		r.fault(row{}, fmt.Sprintf("the log spans %v", span), "name the unit of the times in the header: time_s, time_min or time_h")
	}
}

// temperature returns the reading of a row in its unit; false for an empty cell.
func (r *logReader) temperature(w row) (quantity.Temperature, bool) {
	cell := w.cell(r.columns.temperature)
	if absent(cell) {
		return 0, false
	}
	value, ok := r.number(strings.TrimRight(cell, " °ºCFK"))
	if !ok {
		r.fault(w, "«"+shown(cell)+"» is not a temperature", "write a number, or take the line out")
		return 0, false
	}
	kelvin := r.columns.unit.kelvin(value)
	if c := kelvin.Celsius(); !(c >= -40 && c <= 400) {
		r.fault(w, fmt.Sprintf("%v is no temperature of a cup", kelvin), "name the unit in the header, °C or °F, or take the line out")
		return 0, false
	}
	return kelvin, true
}

// extras reads the viscosity and the flow time of a row, where it has them.
func (r *logReader) extras(l *Log, w row, at quantity.Time) {
	read := func(column int, scale float64, what string) (float64, bool) {
		cell := w.cell(column)
		if column < 0 || absent(cell) {
			return 0, false
		}
		value, ok := r.number(cell)
		if !ok || !(value > 0) || math.IsInf(value*scale, 0) {
			r.fault(w, "«"+shown(cell)+"» is not a "+what, "write a number above zero, or leave the cell empty")
			return 0, false
		}
		return value * scale, true
	}
	if v, ok := read(r.columns.viscosity, r.columns.viscosityScale, "viscosity"); ok {
		l.Viscosities = append(l.Viscosities, ViscosityReading{at, quantity.Viscosity(v)})
	}
	if v, ok := read(r.columns.flow, 1, "flow time in seconds"); ok {
		l.FlowTimes = append(l.FlowTimes, FlowReading{at, quantity.Time(v)})
	}
}

func (w row) cell(i int) string {
	if i < 0 || i >= len(w.cells) {
		return ""
	}
	return w.cells[i]
}

// absent tells how loggers write that there is no reading.
func absent(cell string) bool {
	switch strings.ToLower(cell) {
	case "", "-", "--", "---", "nan", "n/a", "na", "null", "open", "err", "error":
		return true
	}
	return false
}
