package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"potlife/resins/document"
)

// A piece is a random value of a field, and of what is in it.
type piece struct {
	field document.Field
	keys  []string // of a mapping, in their order
	below []*piece // values of the keys, or items of a list
	list  bool
	text  string // of a scalar
	raw   bool   // text stands as it is
	// several tells that other forms may read what this one does not.
	several bool
}

// yaml writes the piece on one line.
func (p *piece) yaml() string {
	var parts []string
	switch {
	case p.raw:
		return p.text
	case p.list:
		for _, item := range p.below {
			parts = append(parts, item.yaml())
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case p.keys != nil:
		for i, key := range p.keys {
			parts = append(parts, key+": "+p.below[i].yaml())
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return p.text
}

// source is the piece as a file: a key on each line.
func (p *piece) source() []byte {
	var b strings.Builder
	for i, key := range p.keys {
		fmt.Fprintf(&b, "%s: %s\n", key, p.below[i].yaml())
	}
	return []byte(b.String())
}

// random draws a value that keeps to its table and mostly to its rules; once in a while a
// number is anywhere.
func random(t *rapid.T, f document.Field) *piece {
	switch f.Kind {
	case document.KindMapping:
		return randomMapping(t, f)
	case document.KindList:
		p := &piece{field: f, list: true}
		for range rapid.IntRange(1, 3).Draw(t, "items") {
			p.below = append(p.below, random(t, f.Item()))
		}
		return p
	}
	if len(f.Forms) > 0 {
		p := random(t, rapid.SampledFrom(f.Forms).Draw(t, "form"))
		p.several = p.several || f.Kind == document.KindCustom && len(f.Forms) > 1
		return p
	}
	return &piece{field: f, text: quotedOrNot(t, randomScalar(t, f))}
}

func randomScalar(t *rapid.T, f document.Field) string {
	if f.Kind == document.KindChoice || len(f.Choices) > 0 {
		return rapid.SampledFrom(f.Choices).Draw(t, f.Name)
	}
	if f.Kind == document.KindBool {
		return rapid.SampledFrom([]string{"true", "false", "True", "FALSE"}).Draw(t, f.Name)
	}
	if rapid.IntRange(0, 60).Draw(t, "anywhere") > 0 || f.Kind == document.KindText || f.Kind == document.KindCustom {
		return strings.Trim(f.Example(), `"`)
	}
	number := rapid.SampledFrom([]string{"0", "0.5", "1", "3", "25", "1e3", "-1", "80", ".5", "+2", "007", "1,5"}).Draw(t, "number")
	if len(f.Units) == 0 {
		return number
	}
	if f.Low != nil && f.High != nil && !f.Low.Exclusive && rapid.Bool().Draw(t, "end") {
		return rapid.SampledFrom([]string{f.Low.Text, f.High.Text}).Draw(t, "which")
	}
	return number + rapid.SampledFrom([]string{" ", ""}).Draw(t, "space") + rapid.SampledFrom(f.Units).Draw(t, "unit")
}

func quotedOrNot(t *rapid.T, text string) string {
	if rapid.IntRange(0, 3).Draw(t, "quotes") == 0 || strings.ContainsAny(text, ",:#[]{}") {
		return strconv.Quote(text)
	}
	return text
}

func randomMapping(t *rapid.T, f document.Field) *piece {
	p := &piece{field: f, keys: []string{}}
	wanted := map[string]bool{}
	for _, part := range f.Fields {
		wanted[part.Name] = part.Required || rapid.IntRange(0, 3).Draw(t, "with "+part.Name) == 0
	}
	for _, rule := range f.Rules {
		obey(t, rule, wanted)
	}
	law := ""
	for _, part := range f.Fields {
		if !wanted[part.Name] || part.Retired != "" {
			continue
		}
		below := random(t, part)
		for _, rule := range f.Rules {
			if rule.By == part.Name {
				law = strings.Trim(below.text, `"`)
			}
			if rule.By != "" && rule.By != part.Name && takenByAny(rule, part.Name) && !slices.Contains(rule.Takes[law], part.Name) {
				below = nil
			}
		}
		if below != nil {
			p.keys, p.below = append(p.keys, anyName(t, part)), append(p.below, below)
		}
	}
	return p
}

// anyName is the name of a field, or one that it had.
func anyName(t *rapid.T, f document.Field) string {
	if len(f.Was) == 0 {
		return f.Name
	}
	return rapid.SampledFrom(append([]string{f.Name}, f.Was...)).Draw(t, "name of "+f.Name)
}

// called tells whether a field has or had a name.
func called(f document.Field, name string) bool {
	return f.Name == name || slices.Contains(f.Was, name)
}

// today is the name that a key has today.
func (p *piece) today(key string) string {
	for _, f := range p.field.Fields {
		if called(f, key) {
			return f.Name
		}
	}
	return key
}

// has tells whether a field is written, under whatever name.
func (p *piece) has(f document.Field) bool {
	return slices.ContainsFunc(p.keys, func(key string) bool { return called(f, key) })
}

// obey chooses the keys that a rule wants.
func obey(t *rapid.T, rule document.Rule, wanted map[string]bool) {
	for _, keys := range rule.Takes {
		for _, key := range keys {
			wanted[key] = true // those of another choice are left out later
		}
	}
	for _, key := range rule.All {
		wanted[key] = true
	}
	if len(rule.AnyOf) > 0 {
		wanted[rapid.SampledFrom(rule.AnyOf).Draw(t, "one of them")] = true
	}
	for i, key := range rule.NotBoth {
		wanted[key] = wanted[key] && !slices.ContainsFunc(rule.NotBoth[:i], func(other string) bool { return wanted[other] })
	}
	if len(rule.OneOf) > 0 {
		for _, set := range rule.OneOf {
			for _, key := range set {
				wanted[key] = false
			}
		}
		for _, key := range rapid.SampledFrom(rule.OneOf).Draw(t, "set") {
			wanted[key] = true
		}
	}
}

func takenByAny(rule document.Rule, key string) bool {
	for _, keys := range rule.Takes {
		if slices.Contains(keys, key) {
			return true
		}
	}
	return false
}

// A slip spoils a document in a way that a schema must see.
type slip struct {
	what string
	make func()
}

// foreignUnits are of dimensions of which no field has two.
var foreignUnits = []string{"kg", "mm", "min", "mPa·s", "J/g", "deg", "tex"}

// slips are all that can be made in a piece and below it.
func (p *piece) slips() []slip {
	var list []slip
	add := func(what string, make func()) { list = append(list, slip{what, make}) }
	spoil := func(what, text string) { add(what, func() { p.raw, p.text = true, text }) }
	spoil("nothing in "+p.field.Name, "null")
	spoil("wrong shape of "+p.field.Name, "[[x]]")
	switch {
	case p.list && p.field.LeastItems > 0:
		spoil("empty list", "[]")
	case p.keys != nil:
		list = append(list, p.nameSlips()...)
		add("unknown key", func() { p.keys, p.below = append(p.keys, "colour"), append(p.below, &piece{raw: true, text: "red"}) })
		list = append(list, p.ruleSlips()...)
	case p.field.Kind == document.KindQuantity:
		if !p.several {
			spoil("bare "+p.field.Name, "25")
		}
		for _, unit := range foreignUnits {
			if !slices.Contains(p.field.Units, unit) && !p.several {
				spoil("unit of something else in "+p.field.Name, "25 "+unit)
			}
		}
		spoil("comma in "+p.field.Name, `"2,5 `+p.field.Units[0]+`"`)
	case p.field.Kind == document.KindChoice && !p.several, p.field.Kind == document.KindBool:
		spoil("wrong choice of "+p.field.Name, "colour")
	case p.field.Kind == document.KindNumber || p.field.Kind == document.KindInteger:
		spoil("word for a number in "+p.field.Name, "many")
		if p.field.High != nil && !p.several {
			spoil("number too large in "+p.field.Name, fmt.Sprint(2*p.field.High.Value+1))
		}
	}
	for i, below := range p.below {
		if p.keys != nil && p.required(p.keys[i]) {
			add("missing "+p.keys[i], func() { p.drop(i) })
		}
		list = append(list, below.slips()...)
	}
	return list
}

func (p *piece) drop(i int) {
	p.keys, p.below = slices.Delete(slices.Clone(p.keys), i, i+1), slices.Delete(slices.Clone(p.below), i, i+1)
}

// nameSlips write a key under two of its names, or one that is no longer read.
func (p *piece) nameSlips() []slip {
	var list []slip
	for _, f := range p.field.Fields {
		i := slices.IndexFunc(p.keys, func(key string) bool { return called(f, key) })
		for _, name := range append([]string{f.Name}, f.Was...) {
			if i >= 0 && name != p.keys[i] {
				list = append(list, slip{"also " + name, func() { p.keys, p.below = append(p.keys, name), append(p.below, p.below[i]) }})
			}
		}
		if f.Retired != "" {
			list = append(list, slip{"retired key", func() { p.keys, p.below = append(p.keys, f.Name), append(p.below, &piece{raw: true, text: "red"}) }})
		}
	}
	return list
}

// ruleSlips break a rule by a key too few.
func (p *piece) ruleSlips() []slip {
	var list []slip
	for _, rule := range p.field.Rules {
		needed := rule.All
		for _, set := range rule.OneOf {
			needed = append(needed, set...)
		}
		for _, keys := range rule.Takes {
			needed = append(needed, keys...)
		}
		for i, key := range p.keys {
			if slices.Contains(needed, p.today(key)) {
				list = append(list, slip{"without " + key, func() { p.drop(i) }})
			}
		}
		// A key of another set: all of them are known keys of the mapping.
		for _, part := range p.field.Fields {
			beside := slices.Contains(rule.NotBoth, part.Name) && slices.ContainsFunc(p.keys, func(key string) bool { return slices.Contains(rule.NotBoth, p.today(key)) })
			if (beside || slices.Contains(slices.Concat(rule.OneOf...), part.Name)) && !p.has(part) {
				list = append(list, slip{"and " + part.Name, func() {
					p.keys, p.below = append(p.keys, part.Name), append(p.below, &piece{raw: true, text: strconv.Quote(part.Example())})
					if part.Kind == document.KindMapping || part.Kind == document.KindBool {
						p.below[len(p.below)-1].text = part.Example()
					}
				}})
			}
		}
	}
	return list
}

func (p *piece) required(key string) bool {
	return slices.ContainsFunc(p.field.Fields, func(f document.Field) bool { return called(f, key) && f.Required })
}

// TestSchemasOnRandomDocuments draws documents from the tables. What the program reads the
// schema takes; after one slip of a kind that a schema can see, both refuse.
func TestSchemasOnRandomDocuments(t *testing.T) {
	t.Parallel()
	for _, kind := range append(fileKinds[:len(fileKinds):len(fileKinds)], renamedKind) {
		t.Run(kind.name, func(t *testing.T) {
			compiled := compiledSchema(t, kind)
			table := kind.table()
			read, spoilt := 0, map[string]bool{}
			rapid.Check(t, func(t *rapid.T) {
				var document *piece
				var source []byte
				for tries := 0; document == nil; tries++ {
					if tries == 12 {
						t.SkipNow()
					}
					drawn := random(t, table)
					if source = drawn.source(); readers[kind.name](source) == nil {
						document = drawn
					}
				}
				read++
				if err := validate(compiled, source); err != nil {
					t.Fatalf("read by the program and refused by the schema: %v\n%s", err, source)
				}
				mistake := rapid.SampledFrom(document.slips()[2:]).Draw(t, "slip") // those of the root are other files
				mistake.make()
				spoilt[mistake.what] = true
				source = document.source()
				if readers[kind.name](source) == nil {
					t.Fatalf("%s, and the program reads it:\n%s", mistake.what, source)
				}
				if validate(compiled, source) == nil {
					t.Fatalf("%s, and the schema takes it:\n%s", mistake.what, source)
				}
			})
			t.Logf("%d documents read, %d slips", read, len(spoilt))
			if read < 60 || len(spoilt) < 10 {
				t.Errorf("%d documents were read and %d slips made: that tests little", read, len(spoilt))
			}
		})
	}
}
