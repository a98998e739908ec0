package document

import (
	"strings"
	"unicode/utf8"

	"potlife/kinetics/warning"
)

// Document is what Read found: where each value stands, and the faults so far.
type Document struct {
	file   string
	lines  []string
	fields []Field
	places map[string]position
	faults []Fault

	renamed []warning.Warning
}

// Read reads the source into the variables that the fields are bound to. The filename
// only appears in messages; for the text of a command-line flag it is the flag's name.
// The error is a [*Faults]; a field at fault keeps the value it had. The document is
// never nil, so that the caller can add the faults it finds itself.
func Read(filename string, source []byte, fields []Field) (*Document, error) {
	d := &Document{file: filename, fields: fields, places: map[string]position{}}
	if body, ok := d.parse(source); ok {
		wanted := Field{Kind: KindMapping, Measures: "a mapping of keys and values", Fields: fields}
		wanted.read = func(n Node) { n.readFields(fields) }
		root := Node{ast: body, in: d}
		root.at = root.start(position{1, 1}, true)
		d.places[""] = root.at
		root.Read(wanted)
	}
	return d, d.Err()
}

// Err returns all faults recorded so far as a [*Faults], nil if there are none.
func (d *Document) Err() error {
	if len(d.faults) == 0 {
		return nil
	}
	return &Faults{List: sortFaults(d.faults)}
}

// Has tells whether a value is written at the path, at fault or not. A path joins keys
// with dots and counts list items from zero: layers[2].time.
func (d *Document) Has(path string) bool {
	_, ok := d.places[path]
	return ok
}

// Instead puts one fault at the path in place of all others: the document is one of another
// kind, and what it lacks for this kind says nothing.
func (d *Document) Instead(path, problem, mend string) {
	d.faults = nil
	d.FaultAt(path, problem, mend)
}

// Sound tells whether a value is written at the path and neither it nor anything below
// it is at fault. Rules that tie fields together ask it first.
func (d *Document) Sound(path string) bool {
	for _, f := range d.faults {
		if path == "" || f.path == path || strings.HasPrefix(f.path, path+".") || strings.HasPrefix(f.path, path+"[") {
			return false
		}
	}
	return d.Has(path)
}

// FaultAt records a fault at the path or, if nothing is written there, at the nearest
// mapping or list around it.
func (d *Document) FaultAt(path, problem, mend string) {
	at := position{1, 1}
	for around := path; ; around = parent(around) {
		if p, ok := d.places[around]; ok {
			at = p
			break
		}
		if around == "" {
			break
		}
	}
	d.fault(at, path, problem, mend)
}

// inText is a place in the text, with its line, for one that the parser may have put outside.
func (d *Document) inText(at position) (position, string) {
	line := ""
	at.line = max(1, min(at.line, len(d.lines)))
	if len(d.lines) > 0 {
		line = d.lines[at.line-1]
	}
	at.column = max(1, min(at.column, utf8.RuneCountInString(line)+1))
	return at, line
}

func parent(path string) string { return path[:max(0, strings.LastIndexAny(path, ".["))] }

// fault records a fault, moved into the text if the parser places it outside. Problem and
// mend may quote a person's text of several lines; they are brought onto one.
func (d *Document) fault(at position, path, problem, mend string) {
	at, line := d.inText(at)
	d.faults = append(d.faults, Fault{
		File: d.file, Line: at.line, Column: at.column, Excerpt: excerpt(line, at.line, at.column),
		Problem: strings.Map(printable, problem), Mend: strings.Map(printable, mend), path: path,
	})
}
