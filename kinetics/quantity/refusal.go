package quantity

import (
	"math"
	"strings"
)

// refuseBare refuses a number without a unit.
func (d *dimension) refuseBare(text string, r reading) *Error {
	m := writeLike(r.text + " " + d.usual)
	if d == fraction && r.value != 0 && math.Abs(r.value) <= 1 {
		// 0.6 may be meant as a share of one or as a percentage.
		m = offer("write ", numeral(100*r.value)+" %")
		m.whole += ", or " + r.text + " % if that is meant"
	}
	return refuse(text, m, "%s has no unit, here %s is wanted", excerpt(r.text), d.name)
}

// refuseUnit explains a unit that is not one of d: of another dimension, in wrong case,
// or unknown.
func (d *dimension) refuseUnit(text string, r reading) *Error {
	shown := excerpt(text)
	if d == temperatureDifference {
		if u := temperature.find(r.rest); u != nil {
			return refuse(text, offer("a difference is written in kelvin: ", numeral(roundForShow(r.value*u.scale))+" K"),
				"%s is a temperature, here a difference is wanted", shown)
		}
	}
	for _, other := range dimensions {
		if other != d && other.find(r.rest) != nil {
			return refuse(text, writeLike(r.text+" "+d.usual), "%s is %s, here %s is wanted", shown, other.name, d.name)
		}
	}
	name := excerpt(r.rest)
	if key, ok := spell(r.rest); ok {
		if u := d.wrongCase(key); u != nil {
			return d.refuseCase(text, r, u, key)
		}
	}
	if u := d.nearest(r.rest); u != nil {
		return refuse(text, writeLike(r.text+" "+u.name), "%s: %s is not a unit of %s", shown, name, d.noun())
	}
	return refuse(text, offer("units of "+d.noun()+": "+d.list()+"; write it like this: ", d.example()),
		"%s: %s is not a unit of %s", shown, name, d.noun())
}

func (d *dimension) refuseCase(text string, r reading, u *unit, key string) *Error {
	if meaning, known := d.foreign[key]; known {
		return refuse(text, words("write "+u.name), "%s: %s is %s", excerpt(text), excerpt(r.rest), meaning)
	}
	return refuse(text, writeLike(r.text+" "+u.name), "%s: %s is not %s, capital M means mega", excerpt(text), excerpt(r.rest), u.name)
}

func (d *dimension) list() string {
	names := make([]string, len(d.units))
	for i, u := range d.units {
		names[i] = u.name
	}
	return strings.Join(names, ", ")
}

// nearest returns the unit whose spelling is one edit away, or two where that is less
// than half its length; nil if none is. Two edits of km/h make mm/s.
func (d *dimension) nearest(text string) *unit {
	written := []rune(text)
	if len(written) > 2*longestUnit {
		return nil
	}
	var best *unit
	least := 3
	for i := range d.units {
		name := []rune(d.units[i].name)
		if n := edits(written, name); n < least && (n == 1 || 2*n < len(name)) {
			best, least = &d.units[i], n
		}
	}
	return best
}

// longestUnit is the number of runes of the longest unit, kJ/(kg·K).
const longestUnit = 9

// edits is the Levenshtein distance.
func edits(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range b {
			substituted := diagonal
			if x != y {
				substituted++
			}
			diagonal = row[j+1]
			row[j+1] = min(substituted, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
