// Package sheet writes the page that hangs beside the machine: a plan in HTML, to be printed
// on A4 and written on with a pen.
//
// Two pairs of hands work from it, and each has a lane of its own: on the left what happens
// at the cups, on the right what happens at the machine. They meet line by line: a pot stands
// beside the layer that it is mixed for. In every field the plan is above and a line for what
// really happened below. It is black on white, needs no colour, no script and nothing from
// elsewhere, and says so to the browser.
package sheet

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"

	"potlife/resins/document/visible"
)

// A Page is what the sheet says, in words and figures ready to print.
type Page struct {
	Title   string
	Day     string // and its zone
	Resin   string
	Mix     string // the ratio
	Verdict string
	Rows    []Row
	Limits  []string // when the bath is at its end
	Doubts  []string
	Care    []string
}

// A Row is a line across both lanes; an empty lane is nil. Day stands above it where a day
// begins with it, after the first.
type Row struct {
	Day   string
	Pot   *Pot
	Layer *Layer
}

// A Pot is mixed and poured. Latest times are empty where there are none.
type Pot struct {
	Number       string // empty: it stands mixed
	Into         string
	Where        string // in a layer, if not before it
	Resin        string
	Hardener     string
	Mass         string
	Mix, MixBy   string
	Pour, PourBy string
}

// A Layer is wound.
type Layer struct {
	Name        string
	Detail      string
	Begin, Done string
}

//go:embed sheet.html
var markup string

//go:embed sheet.css
var style string

var page = template.Must(template.New("sheet").Parse(markup))

// Encode returns the page as one file.
func (p *Page) Encode() ([]byte, error) {
	var out bytes.Buffer
	sum := sha256.Sum256([]byte(style))
	err := page.Execute(&out, struct {
		*Page
		Style   template.CSS
		Allowed string // the hash by which the browser knows the style for ours
		Height  string
	}{p, template.CSS(style), base64.StdEncoding.EncodeToString(sum[:]), p.height()})
	return []byte(visible.Lines(out.String())), err
}

// height of the rows: as much room for the pen as one page gives.
func (p *Page) height() string {
	switch n := len(p.Rows); {
	case n <= 7:
		return "tall"
	case n <= 9:
		return "middle"
	}
	return "low"
}
