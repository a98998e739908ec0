package report

import (
	"fmt"
	"io"
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
// ten columns of figures fit 80 characters.
func (t *table) write(w io.Writer) error {
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
			return err
		}
	}
	if err := out.Render(); err != nil {
		return err
	}
	for line := range strings.Lines(text.String()) {
		if _, err := fmt.Fprintln(w, strings.TrimRight(line, " \n")); err != nil {
			return err
		}
	}
	return nil
}
