package report

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
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
	if err := w.WriteAll(append([][]string{t.Head}, t.Rows...)); err != nil {
		return nil, err
	}
	return text.Bytes(), nil
}

// Begins tells whether a file begins with the headings of the table: whether it is an earlier
// one of its kind.
func (t *CSVTable) Begins(content []byte) bool {
	head, err := (&CSVTable{Head: t.Head}).CSV()
	return err == nil && bytes.HasPrefix(content, head)
}

// formulaSigns begin what a spreadsheet reckons instead of showing. Some take the wide ones of
// East Asian keyboards for the same.
const formulaSigns = "=+-@＝＋－＠\t\r\n"

// csvText is a text that a person wrote, with an apostrophe before it where a spreadsheet
// would run it.
func csvText(text string) string {
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " "))
	if text != "" && strings.ContainsRune(formulaSigns, first) {
		return "'" + text
	}
	return text
}

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
