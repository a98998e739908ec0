package report

import (
	"bytes"
	"encoding/csv"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"potlife/resins/document/visible"
)

// A CSVTable is one table for a spreadsheet. Each heading ends in its unit, as in JSON; an
// empty cell is a value that is not known.
type CSVTable struct {
	Name string // of its file, without the ending
	Head []string
	Rows [][]string
}

// File is the name of the table's file.
func (t *CSVTable) File() string { return t.Name + ".csv" }

// CSV is the table as RFC 4180 has it: UTF-8, commas, quotes where they are needed, lines that
// end in CR LF.
func (t *CSVTable) CSV() ([]byte, error) {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	w.UseCRLF = true
	rows := [][]string{t.Head}
	for _, row := range t.Rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = csvCell(cell)
		}
		rows = append(rows, cells)
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return text.Bytes(), nil
}

// Headings are the first line of the table's file, by which earlier ones of its kind are known.
func (t *CSVTable) Headings() ([]byte, error) { return (&CSVTable{Head: t.Head}).CSV() }

// formulaSigns begin what a spreadsheet reckons instead of showing. Some take the wide ones of
// East Asian keyboards for the same.
const formulaSigns = "=+-@＝＋－＠\t\r\n"

// plainFigure is what [csvNumber] writes.
var plainFigure = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// csvCell is a cell as it is written: with an apostrophe before it where a spreadsheet would run
// it, and with what cannot be seen in it shown.
func csvCell(text string) string {
	if plainFigure.MatchString(text) {
		return text
	}
	first, _ := utf8.DecodeRuneInString(strings.TrimLeftFunc(text, blank))
	if text != "" && strings.ContainsRune(formulaSigns, first) {
		text = "'" + text
	}
	return visible.Lines(text)
}

// blank tells what stands before a formula without keeping a spreadsheet from running it.
func blank(r rune) bool { return unicode.IsSpace(r) && !strings.ContainsRune(formulaSigns, r) }

// csvNumber is a figure to a millionth, without zeros behind it.
func csvNumber(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	if math.Abs(x) < 1e9 { // beyond it a millionth is less than the last digit
		x = math.Round(x*1e6)/1e6 + 0 // no minus before 0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// csvSome is a figure that is there unless it is 0.
func csvSome(x float64) string {
	if x == 0 {
		return ""
	}
	return csvNumber(x)
}

func csvFigure(x *float64) string {
	if x == nil {
		return ""
	}
	return csvNumber(*x)
}

// csvCount is a number that is there unless it is 0.
func csvCount(n int) string {
	if n == 0 {
		return ""
	}
	return number(n)
}

// csvMinutes is a time in s as minutes.
func csvMinutes(s *float64) string {
	if s == nil {
		return ""
	}
	return csvNumber(*s / 60)
}

func csvTime(t *time.Time) string {
	if t == nil {
		return ""
	}
	return t.Format(time.RFC3339)
}
