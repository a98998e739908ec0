package main

import (
	"slices"

	"potlife/resins"
	"potlife/resins/document"
)

// renamedKind is a kind of files of which every key had another name before: no real one has
// many. It has each kind of rule.
var renamedKind = fileKind{"renamed", "file whose keys had other names", func() document.Field { return new(renamedFile).table() }}

func init() {
	readers[renamedKind.name] = func(source []byte) error {
		f := new(renamedFile)
		doc, _ := document.Read("renamed.yaml", source, f.table().Fields)
		f.vessel.Check(doc, "vessel")
		if doc.Has("label") {
			f.label.Check(doc, "label")
		}
		for _, key := range []string{"m", "n"} {
			if doc.Has("law") && doc.Has(key) != slices.Contains(renamedLaws[f.law], key) {
				doc.FaultAt(key, "the law takes other constants", "write those of the law")
			}
		}
		if !doc.Has("note") {
			doc.FaultAt("note", "there is no note", "write one")
		}
		return doc.Err()
	}
}

var renamedLaws = map[string][]string{"first": {"m"}, "second": {"m", "n"}}

type renamedFile struct {
	vessel    resins.Container
	label     resins.Label
	law, note string
	m, n      float64
}

func (f *renamedFile) table() document.Field {
	table := document.Mapping("", []document.Field{
		document.Mapping("vessel", f.vessel.Fields(), document.Required(), f.vessel.Rule()),
		document.Mapping("label", f.label.Fields(), f.label.Rule()),
		document.Choice("law", &f.law, []string{"first", "second"}, document.Required()),
		document.Number("m", &f.m, document.Between(0.0, 5.0), document.Example("1")),
		document.Number("n", &f.n, document.Between(0.0, 5.0), document.Example("2")),
		document.Text("note", &f.note, document.Example("as on the can")),
		document.Retired("colour_of_before", "leave it out"),
	}, document.Ruled(document.Rule{By: "law", Takes: renamedLaws}), document.Ruled(document.Rule{All: []string{"note"}}))
	age(table.Fields)
	return table
}

// age gives every key a name of before, and some a second.
func age(fields []document.Field) {
	for i := range fields {
		f := &fields[i]
		if f.Retired != "" || f.Name == "" {
			continue
		}
		f.Was = []string{"old_" + f.Name}
		if i%2 == 0 {
			f.Was = append(f.Was, "older_"+f.Name)
		}
		age(f.Fields)
	}
}
