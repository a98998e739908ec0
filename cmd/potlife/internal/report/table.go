package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/tw"
)

// A table is a heading and rows, numbers to the right.
type table struct {
	head []string
	left []bool // columns of words
	rows [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// drop leaves out a column.
func (t *table) drop(column int) {
	t.head = slices.Delete(t.head, column, column+1)
	if column < len(t.left) {
		t.left = slices.Delete(t.left, column, column+1)
	}
	for i := range t.rows {
		t.rows[i] = slices.Delete(t.rows[i], column, column+1)
	}
}

// width is that of the widest row, columns two spaces apart.
func (t *table) width() int {
	var columns []int
	for _, row := range append([][]string{t.head}, t.rows...) {
		for i, cell := range row {
			if i == len(columns) {
				columns = append(columns, 0)
			}
			columns[i] = max(columns[i], utf8.RuneCountInString(cell))
		}
	}
	sum := 2 * max(0, len(columns)-1)
	for _, w := range columns {
		sum += w
	}
	return sum
}

// write renders the table without borders, columns two spaces apart, so that
// ten columns of figures fit 80 characters. On a page with less room than it
// takes it is told row by row; a file or a pipe gets it as wide as it is.
func (t *table) write(w io.Writer) error {
	text, err := t.aligned()
	if err != nil {
		return err
	}
	if _, onPage := w.(Page); onPage && widest(text) > columns(w) {
		t.tell(w)
		return nil
	}
	for line := range strings.Lines(text) {
		if _, err := fmt.Fprintln(w, strings.TrimRight(line, " \n")); err != nil {
			return err
		}
	}
	return nil
}

func widest(text string) int {
	most := 0
	for line := range strings.Lines(text) {
		most = max(most, utf8.RuneCountInString(strings.TrimRight(line, " \n")))
	}
	return most
}

// tell writes a row as a sentence: each cell after its heading, from which it is
// not parted. The first cell opens the line.
func (t *table) tell(w io.Writer) {
	const indent = "    "
	room := columns(w) - len(indent)
	for _, row := range t.rows {
		var words []string
		for i, cell := range row {
			if strings.TrimSpace(cell) == "" {
				continue
			}
			mark := ","
			switch {
			case i == 0:
				mark = ":"
			case i < len(t.head) && t.head[i] != "":
				cell = t.head[i] + " " + cell
			}
			if cell += mark; utf8.RuneCountInString(cell) > room {
				words = append(words, strings.Fields(cell)...)
				continue
			}
			words = append(words, cell)
		}
		if n := len(words); n > 0 {
			words[n-1] = strings.TrimRight(words[n-1], ",:")
		}
		fmt.Fprint(w, foldWords(columns(w), words, "", indent))
	}
}

// aligned is the whole table as text.
func (t *table) aligned() (string, error) {
	columns := len(t.head)
	if columns == 0 && len(t.rows) > 0 {
		columns = len(t.rows[0])
	}
	align := make([]tw.Align, columns)
	for i := range align {
		align[i] = tw.AlignRight
		if i < len(t.left) && t.left[i] {
			align[i] = tw.AlignLeft
		}
	}
	cells := tw.CellConfig{
		Formatting: tw.CellFormatting{AutoFormat: tw.Off, AutoWrap: tw.WrapNone},
		Alignment:  tw.CellAlignment{PerColumn: align},
		Padding:    tw.CellPadding{Global: tw.Padding{Left: "", Right: "  ", Overwrite: true}},
	}
	var text strings.Builder
	out := tablewriter.NewTable(&text,
		tablewriter.WithConfig(tablewriter.Config{Header: cells, Row: cells, Behavior: tw.Behavior{TrimSpace: tw.Off}}),
		tablewriter.WithRendition(tw.Rendition{
			Borders: tw.BorderNone,
			Settings: tw.Settings{
				Separators: tw.SeparatorsNone,
				Lines:      tw.LinesNone,
			},
		}),
	)
	if len(t.head) > 0 {
		out.Header(t.head)
	}
	for _, row := range t.rows {
		if err := out.Append(row); err != nil {
			return "", err
		}
	}
	if err := out.Render(); err != nil {
		return "", err
	}
	return text.String(), nil
}
