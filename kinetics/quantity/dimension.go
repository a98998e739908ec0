package quantity

import (
	"fmt"
	"strings"
)

// unit is one unit of a dimension: SI = (number + offset)·scale.
type unit struct {
	name   string // canonical spelling
	scale  float64
	offset float64
	also   []string // spellings that the rules of spell do not reach
	key    string   // of the canonical spelling
}

func (u *unit) toSI(number float64) float64 { return (number + u.offset) * u.scale }
func (u *unit) fromSI(si float64) float64   { return si/u.scale - u.offset }

// rung says from which SI magnitude on String prefers a unit.
type rung struct {
	unit string
	from float64
}

// dimension is the declarative table of one type, completed by define.
type dimension struct {
	name     string // with its article
	usual    string // unit of mends and of zero
	sample   string // a plausible number in the usual unit
	units    []unit
	ladder   []rung // ascending; only the usual unit if empty
	compound bool   // "1 h 30 min"
	lowest   func(si float64) bool
	misread  map[string]string // spelling in wrong case -> what it really means

	bySpelling, byKey, byFold map[string]*unit
	foreign                   map[string]string // key of a misread spelling -> meaning
}

func define(d dimension) *dimension {
	d.bySpelling = map[string]*unit{}
	d.byKey = map[string]*unit{}
	d.byFold = map[string]*unit{}
	d.foreign = map[string]string{}
	if d.ladder == nil {
		d.ladder = []rung{{unit: d.usual}}
	}
	for i := range d.units {
		u := &d.units[i]
		u.key = mustSpell(u.name)
		for _, text := range append([]string{u.name}, u.also...) {
			key := mustSpell(text)
			d.bySpelling[text] = u
			d.byKey[key] = u
			d.byFold[strings.ToLower(key)] = u
		}
	}
	for text, meaning := range d.misread {
		d.foreign[mustSpell(text)] = meaning
	}
	return &d
}

// mustSpell is for the tables above alone; a person's text goes through spell.
func mustSpell(text string) string {
	key, ok := spell(text)
	if !ok {
		panic("quantity: the unit table holds the unreadable unit " + text)
	}
	return key
}

func (d *dimension) example() string { return d.sample + " " + d.usual }

// noun is the name without its article.
func (d *dimension) noun() string {
	_, noun, _ := strings.Cut(d.name, " ")
	return noun
}

// find returns the unit that a person's spelling means, or nil.
func (d *dimension) find(text string) *unit {
	if u := d.bySpelling[text]; u != nil {
		return u
	}
	key, ok := spell(text)
	if !ok {
		return nil
	}
	if u := d.byKey[key]; u != nil {
		return u
	}
	if u := d.wrongCase(key); u != nil && harmless(key) {
		return u
	}
	return nil
}

// wrongCase returns the unit that key means if capitals are ignored, or nil.
func (d *dimension) wrongCase(key string) *unit { return d.byFold[strings.ToLower(key)] }

// harmless tells whether a key in wrong case has no M: milli and mega differ by 1e9, and
// all other units of this package stay apart without their capitals.
func harmless(key string) bool { return !strings.Contains(key, "M") }

// must returns the unit that the program names.
func (d *dimension) must(text string) *unit {
	u := d.find(text)
	if u == nil {
		panic(fmt.Sprintf("quantity: %q is not a unit of %s", text, d.noun()))
	}
	return u
}

func (d *dimension) in(si float64, unit string) float64 { return d.must(unit).fromSI(si) }
