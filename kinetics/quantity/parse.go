package quantity

import (
	"math"
	"strings"
	"unicode"
)

// Parse reads a quantity of type Q. The error is an [*Error] and names the mend.
// Negative values are read for every type; only a temperature below absolute zero is
// refused. Ranges are the caller's to check.
func Parse[Q Quantity](text string) (Q, error) {
	si, err := Q(0).dimension().parse(text)
	if err != nil {
		return 0, err
	}
	return Q(si), nil
}

func (d *dimension) parse(text string) (float64, *Error) {
	text = strings.TrimFunc(text, unicode.IsSpace)
	r, err := scanNumber(text, d.example())
	if err != nil {
		return 0, err
	}
	if r.rest == "" {
		return 0, d.refuseBare(text, r)
	}
	u := d.find(r.rest)
	if u == nil && d.compound {
		if si, ok := d.parseCompound(r); ok {
			return d.accept(text, si)
		}
	}
	if u == nil {
		return 0, d.refuseUnit(text, r)
	}
	return d.accept(text, u.toSI(r.value))
}

// accept refuses what no thermometer can show and what left the range by conversion.
func (d *dimension) accept(text string, si float64) (float64, *Error) {
	if d.lowest != nil && !d.lowest(si) {
		return 0, refuse(text, words("nothing is colder than 0 K, which is -273.15 °C: check the sign and the unit"),
			"%s is below absolute zero", excerpt(text))
	}
	if size := math.Abs(si); si != 0 && !(size >= tooSmall && size <= tooLarge) {
		return 0, refuse(text, words("check the exponent"), "%s is out of reach", excerpt(text))
	}
	return si, nil
}

// parseCompound reads "1 h 30 min": units descend, the sign stands in front of all. It
// reports false if the text is not of that form.
func (d *dimension) parseCompound(r reading) (float64, bool) {
	sign := math.Copysign(1, r.value)
	total, last := 0.0, math.Inf(1)
	for {
		end := strings.IndexAny(r.rest, "0123456789.")
		if end < 0 {
			end = len(r.rest)
		}
		u := d.find(strings.TrimRightFunc(r.rest[:end], unicode.IsSpace))
		if u == nil || u.scale >= last {
			return 0, false
		}
		total += u.toSI(math.Abs(r.value))
		last = u.scale
		if end == len(r.rest) {
			return sign * total, true
		}
		// "1 h 05 min" is how clocks write: a zero in front is no octal here.
		next := r.rest[end:]
		if len(next) > 1 && next[0] == '0' && next[1] >= '0' && next[1] <= '9' {
			next = next[1:]
		}
		var err *Error
		if r, err = scanNumber(next, d.example()); err != nil {
			return 0, false
		}
	}
}
