package report

import (
	_ "embed"
	"html/template"
	"io"

	"potlife/resins/document/visible"
)

//go:embed day.html
var dayPage string

var dayTemplate = template.Must(template.New("day").Parse(dayPage))

// A Picture is an SVG element drawn by this program, and what it shows.
type Picture struct {
	Caption string
	SVG     []byte
}

// Page writes the day as one HTML page that needs nothing outside itself, and no script.
func (d *Day) Page(w io.Writer, pictures []Picture) error {
	type figure struct {
		Caption string
		SVG     template.HTML
	}
	figures := make([]figure, len(pictures))
	for i, p := range pictures {
		figures[i] = figure{p.Caption, template.HTML(p.SVG)} // the chart escapes the names in it
	}
	return dayTemplate.Execute(visible.Writer(w), struct {
		*Day
		Heading, Foot string
		Figures       []figure
		Tables        []*dayTable
		Lists         []dayList
	}{d, d.heading(), d.foot(), figures, d.tables(), d.lists()})
}
