package report

import (
	"bytes"
	"encoding/csv"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/schedule/session"
)

// TestCSVCell: what a spreadsheet would run gets an apostrophe, whatever blanks are before it,
// a figure does not, and what cannot be seen is shown.
func TestCSVCell(t *testing.T) {
	for _, text := range []string{"=1+1", "+49", "-5 + 1", "-1-1", "-inf", "@SUM(A1)", "\t=1", "\n=1", "  =1", "\u00a0=1", "＝1", "-"} {
		if got := csvCell(text); got != "'"+text {
			t.Errorf("%q is written %q", text, got)
		}
	}
	for _, text := range []string{"", " ", "tow broke", "1-2", "a=b", "'quoted", "\"", "µ", "-5", "-5.25", csvNumber(-1.5)} {
		if got := csvCell(text); got != text {
			t.Errorf("%q is written %q", text, got)
		}
	}
	for text, want := range map[string]string{"\r=1": "'«U+000D»=1", "\u202e=1": "«U+202E»=1", "\xff=": "\ufffd=", "a\x1b[2J": "a«U+001B»[2J"} {
		if got := csvCell(text); got != want {
			t.Errorf("%q is written %q, want %q", text, got, want)
		}
	}
}

// TestCSVNumber: figures are never in a form that a spreadsheet takes for text.
func TestCSVNumber(t *testing.T) {
	for x, want := range map[float64]string{
		26.80000000000001: "26.8", -5: "-5", 0.628038: "0.628038", 1e-9: "0", 123456: "123456", 1e21: "1000000000000000000000",
		math.Inf(1): "", -1e-9: "0",
	} {
		if got := csvNumber(x); got != want {
			t.Errorf("%g is written %s, want %s", x, got, want)
		}
	}
}

// TestCSV: a table reads back as it was, with CR LF at its line ends alone.
func TestCSV(t *testing.T) {
	table := &CSVTable{Head: []string{"event", "text"}, Rows: [][]string{{"1", `a "b", c`}, {"2", "two\nlines"}, {"-5", "-0.25"}, {"3", "Härter µ"}, {"", ""}}}
	text, err := table.CSV()
	if err != nil {
		t.Fatal(err)
	}
	read, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if d := cmp.Diff(append([][]string{table.Head}, table.Rows...), read); d != "" || err != nil {
		t.Error(d, err)
	}
	if !bytes.HasPrefix(text, []byte("event,text\r\n1,\"a \"\"b\"\", c\"\r\n")) {
		t.Errorf("%q", text)
	}
	if head, err := table.Headings(); err != nil || string(head) != "event,text\r\n" {
		t.Errorf("%q, %v", head, err)
	}
}

// TestLotCells: the lots of a part share a cell, and their days stand in the same order.
func TestLotCells(t *testing.T) {
	for _, c := range []struct {
		lots []session.Lot
		want []string
	}{
		{nil, []string{"", "", "", ""}},
		{[]session.Lot{{Part: "resin", Name: "A", Expires: "2027-03"}, {Part: "hardener", Name: "=H"}, {Part: "resin", Name: "B"}}, []string{"A; B", "2027-03; ", "=H", ""}},
	} {
		if d := cmp.Diff(c.want, lotCells(c.lots)); d != "" {
			t.Error(d)
		}
	}
}
