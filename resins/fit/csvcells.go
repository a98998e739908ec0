package fit

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// cut finds the delimiter and the decimal sign, and cuts the lines with them.
// False after a fault that leaves nothing to read.
func (r *logReader) cut(lines []row) bool {
	for _, delimiter := range []rune{';', '\t'} {
		if most(lines, func(text string) bool { return strings.ContainsRune(text, delimiter) }) {
			r.delimiter = delimiter
			r.cutAll(lines)
			return r.decideDecimal()
		}
	}
	if most(lines, quotedCells) || !most(lines, func(text string) bool { return strings.ContainsRune(text, ',') }) {
		r.delimiter = ','
		if !most(lines, quotedCells) {
			r.delimiter = ' '
		}
		r.cutAll(lines)
		return r.decideDecimal()
	}
	return r.cutAtCommas(lines)
}

// cutAtCommas settles lines whose commas may be delimiters or decimal signs.
func (r *logReader) cutAtCommas(lines []row) bool {
	if most(lines, spacedDecimals) {
		r.delimiter, r.decimal = ' ', ','
		r.cutAll(lines)
		return true
	}
	r.delimiter, r.decimal = ',', '.'
	r.cutAll(lines)
	if most(lines, func(text string) bool { return strings.ContainsRune(text, '.') }) {
		return true
	}
	// No point anywhere: 0,23,5 may be 0 and 23.5, 0.23 and 5, or three numbers.
	for _, w := range r.rows {
		if digits(w.cells) < 2 {
			continue
		}
		if n := len(w.cells); n > 2 {
			r.fault(w, "the commas may part columns or decimals", "export with semicolons: 0;23,5, or with decimal points: 0,23.5")
			return false
		}
		break
	}
	return true
}

// decideDecimal finds which sign stands before decimals in cells that hold no
// delimiter.
func (r *logReader) decideDecimal() bool {
	r.decimal = '.'
	var comma, point *row
	for i := range r.rows {
		for _, cell := range r.rows[i].cells {
			if !numeric(cell) {
				continue
			}
			if comma == nil && strings.Count(cell, ",") == 1 {
				comma = &r.rows[i]
			}
			if point == nil && strings.Count(cell, ".") == 1 && !strings.Contains(cell, ":") {
				point = &r.rows[i]
			}
		}
	}
	if comma != nil && point != nil && r.delimiter != ',' {
		r.fault(*comma, "decimals are written with commas and with points in one file", "write all with the same sign")
		return false
	}
	if comma != nil {
		r.decimal = ','
	}
	return true
}

// most tells whether a test holds for nearly all lines from the middle on, where
// no header stands.
func most(lines []row, test func(text string) bool) bool {
	held, asked := 0, 0
	for _, w := range lines[len(lines)/2:] {
		asked++
		if test(w.text) {
			held++
		}
	}
	return 10*held >= 9*asked
}

// spacedDecimals tells that a line is numbers and times between spaces, of which
// none ends with the comma of a list: 0,5 23,4.
func spacedDecimals(text string) bool {
	words := strings.Fields(text)
	for _, word := range words {
		if !numeric(word) || strings.HasSuffix(word, ",") || strings.Count(word, ",") > 1 {
			return false
		}
	}
	return len(words) >= 2
}

// quotedCells tells that the cells of a line stand in quotes with commas
// between: "0,5","23,4".
func quotedCells(text string) bool { return strings.Contains(text, `","`) }

// numeric tells whether a cell is made of digits and the signs of numbers and
// clocks.
func numeric(cell string) bool {
	return strings.ContainsAny(cell, "0123456789") && !strings.ContainsFunc(cell, func(c rune) bool {
		return !unicode.IsDigit(c) && !strings.ContainsRune(".,:+-eE", c)
	})
}

// digits counts the cells that are numbers or times.
func digits(cells []string) int {
	n := 0
	for _, cell := range cells {
		if numeric(strings.TrimRight(cell, " °ºCFKTZ")) || clocklike(cell) {
			n++
		}
	}
	return n
}

func (r *logReader) cutAll(lines []row) {
	r.rows = make([]row, len(lines))
	for i, w := range lines {
		w.cells = split(w.text, r.delimiter)
		r.rows[i] = w
	}
}

// split cuts a line at its delimiters; quotes protect them.
func split(text string, delimiter rune) []string {
	if delimiter == ' ' && !strings.Contains(text, `"`) {
		return strings.Fields(text)
	}
	var cells []string
	var cell strings.Builder
	quoted := false
	for _, c := range text {
		switch {
		case c == '"':
			quoted = !quoted
		case !quoted && (c == delimiter || delimiter == ' ' && unicode.IsSpace(c)):
			if delimiter != ' ' || cell.Len() > 0 {
				cells = append(cells, strings.TrimSpace(cell.String()))
			}
			cell.Reset()
		default:
			cell.WriteRune(c)
		}
	}
	cells = append(cells, strings.TrimSpace(cell.String()))
	for len(cells) > 1 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1] // a delimiter at the end of each line
	}
	return cells
}

// number reads a number with the file's decimal sign.
func (r *logReader) number(cell string) (float64, bool) {
	if r.decimal == ',' {
		if strings.Contains(cell, ".") {
			return 0, false
		}
		cell = strings.Replace(cell, ",", ".", 1)
	}
	if !numeric(cell) {
		return 0, false
	}
	value, err := strconv.ParseFloat(cell, 64)
	return value, err == nil && !math.IsInf(value, 0) && !math.IsNaN(value)
}
