package document

import (
	"slices"
	"strings"

	"potlife/kinetics/warning"
	"potlife/resins/document/internal/former"
)

// Was names what a field was called before. A file of that time is read as if it had the name
// of today, and Document.Renamed says so. An old name stays in the table for ever and is given
// to no other field of its mapping.
func Was(names ...string) Option { return func(f *Field) { f.Was = names } }

// Retired is a key that was read once and means nothing now. Only the person who wrote it can
// decide what to write instead, and the decision says it: "write helper: true if a second
// person mixes". A key that only has another name is renamed by Was.
func Retired(name, decision string) Field {
	return Field{Name: name, Kind: KindCustom, Measures: "nothing", Doc: "no longer read: " + decision, Retired: decision}
}

// Renamed is a key that a file has under a name of before.
type Renamed struct {
	File      string
	Line      int
	Was, Name string
	Corrected string // the line with the name of today, cut around it if it is long
}

// Code makes it a warning.
func (Renamed) Code() string { return "renamed-key" }

// Renamed are the keys that the document has under names of before, each a [Renamed], in the
// order of reading. Who reads a file for a person passes them on.
func (d *Document) Renamed() []warning.Warning { return d.renamed }

// was tells whether the field had a name before.
func (f Field) was(name string) bool {
	return slices.Contains(f.Was, name) || former.Names[f.Name] == name
}

// underNewNames gives entries that are written under a name of before the name of today. Where
// both are written, the old one is a fault and left out: they may differ.
func (n Node) underNewNames(pairs []Pair, fields []Field, present map[string]bool) []Pair {
	kept := make([]Pair, 0, len(pairs))
	for _, pair := range pairs {
		i := slices.IndexFunc(fields, func(f Field) bool { return f.was(pair.Name) })
		if i < 0 {
			kept = append(kept, pair)
			continue
		}
		now := fields[i].Name
		if present[now] {
			pair.Key.Fault(pair.Name+" is the old name of "+now+", which is written as well", "delete "+pair.Name+" and its value")
			continue
		}
		present[now] = true
		n.in.renamed = append(n.in.renamed, n.in.renaming(pair.Key.at, pair.Name, now))
		delete(n.in.places, pair.Value.path)
		pair.Name, pair.Key.path, pair.Value.path = now, join(n.path, now), join(n.path, now)
		n.in.places[pair.Value.path] = pair.Value.at
		kept = append(kept, pair)
	}
	return kept
}

// renaming corrects the line of a key at a place.
func (d *Document) renaming(at position, was, name string) Renamed {
	at, text := d.inText(at)
	runes := []rune(strings.Map(printable, text))
	after := strings.Replace(string(runes[at.column-1:]), was, name, 1)
	return Renamed{File: d.file, Line: at.line, Was: was, Name: name, Corrected: corrected(string(runes[:at.column-1]), after)}
}

// corrected is a line, cut on both sides if it is long.
func corrected(before, after string) string {
	start := []rune(strings.TrimLeft(before, " "))
	if len(start) > margin {
		start = append([]rune("…"), start[len(start)-margin:]...)
	}
	line := append(start, []rune(strings.TrimRight(after, " "))...)
	if len(line) > widest {
		line = append(line[:widest], '…')
	}
	return string(line)
}

// Replaced says of a key whose value is a single word that another, with a value of its own, has
// taken its place: by is both.
func (d *Document) Replaced(path, by string) {
	at, text := d.inText(d.places[path])
	runes := []rune(strings.Map(printable, text))
	was, name := path[strings.LastIndex(path, ".")+1:], by[:strings.Index(by, ":")]
	before, after := string(runes[:at.column-1]), string(runes[at.column-1:])
	if i := strings.LastIndex(before, was); i >= 0 { // on the same line
		before = strings.TrimRight(before[:i], "\"'")
	}
	if end := strings.IndexAny(after, ",} #"); end >= 0 {
		after = after[end:]
	} else {
		after = ""
	}
	d.renamed = append(d.renamed, Renamed{File: d.file, Line: at.line, Was: was, Name: name, Corrected: corrected(before, by+after)})
}
