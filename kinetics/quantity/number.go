package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// reading is the number at the head of a text and what follows it.
type reading struct {
	value float64
	text  string // the number as written
	rest  string // what follows, without leading space
}

// Magnitudes outside these bounds are refused: no quantity of this trade comes near,
// and inside them every conversion between units stays finite and exact to rounding.
const (
	tooSmall = 1e-300
	tooLarge = 1e300
)

// ParseNumber reads a dimensionless number: decimal, with a point, no unit. It returns
// an [*Error] for a comma, grouped digits, a leading zero, hexadecimal, a unit, and
// anything not finite.
func ParseNumber(text string) (float64, error) { return ParseNumberLike(text, "1.5") }

// ParseNumberLike is [ParseNumber] with an example for where no number is written.
func ParseNumberLike(text, example string) (float64, error) {
	trimmed := strings.TrimFunc(text, unicode.IsSpace)
	r, err := scanNumber(trimmed, example)
	if err != nil {
		return 0, err
	}
	if r.rest == "%" {
		return 0, refuse(trimmed, writeLike(numeral(r.value/100)), "%s is a share in percent, here a plain number is wanted", excerpt(trimmed))
	}
	if r.rest != "" {
		return 0, refuse(trimmed, writeLike(r.text), "%s is followed by %q, here a plain number is wanted", r.text, excerpt(r.rest))
	}
	return r.value, nil
}

// scanNumber reads the number at the head of text, which has no space around it.
func scanNumber(text, example string) (reading, *Error) {
	if text == "" {
		return reading{}, refuse(text, writeLike(example), "nothing is written here")
	}
	end := numeralEnd(text)
	if end == 0 {
		return reading{}, refuseNoNumber(text, example)
	}
	r := reading{text: text[:end], rest: strings.TrimLeftFunc(text[end:], unicode.IsSpace)}
	if err := refuseForm(text, end); err != nil {
		return reading{}, err
	}
	value, err := strconv.ParseFloat(asciiMinus(r.text), 64)
	if err != nil || !withinReach(value, r.text) {
		return reading{}, refuse(text, words("check the exponent"), "%s is out of reach", excerpt(r.text))
	}
	r.value = value
	return r, nil
}

// numeralEnd returns the length of the sign, digits, point and exponent at the head of
// text, 0 if there is no digit.
func numeralEnd(text string) int {
	start := signLength(text)
	whole := digitsAt(text, start)
	end := start + whole
	decimals := 0
	if end < len(text) && text[end] == '.' {
		if decimals = digitsAt(text, end+1); decimals > 0 {
			end += 1 + decimals
		}
	}
	if whole+decimals == 0 {
		return 0
	}
	if end < len(text) && (text[end] == 'e' || text[end] == 'E') {
		sign := signLength(text[end+1:])
		if n := digitsAt(text, end+1+sign); n > 0 {
			end += 1 + sign + n
		}
	}
	return end
}

func signLength(text string) int {
	switch {
	case strings.HasPrefix(text, "+"), strings.HasPrefix(text, "-"):
		return 1
	case strings.HasPrefix(text, "−"):
		return len("−")
	}
	return 0
}

func digitsAt(text string, i int) int {
	n := 0
	for i+n < len(text) && text[i+n] >= '0' && text[i+n] <= '9' {
		n++
	}
	return n
}

func asciiMinus(text string) string {
	if strings.Contains(text, "−") { // rare: keeps the common path free of allocation
		return strings.ReplaceAll(text, "−", "-")
	}
	return text
}

// withinReach refuses a value that is too large, too small, or whose digits were lost.
func withinReach(value float64, text string) bool {
	if value == 0 {
		mantissa, _, _ := strings.Cut(strings.ToLower(text), "e")
		return !strings.ContainsAny(mantissa, "123456789")
	}
	size := math.Abs(value)
	return size >= tooSmall && size <= tooLarge
}

func refuseNoNumber(text, example string) *Error {
	word := strings.TrimLeft(strings.ToLower(text[signLength(text):]), ".")
	if strings.HasPrefix(word, "nan") || strings.HasPrefix(word, "inf") || strings.HasPrefix(word, "∞") {
		return refuse(text, writeLike(example), "%s is not a finite number", excerpt(text))
	}
	return refuse(text, writeLike(example), "%s does not begin with a number", excerpt(text))
}

// refuseForm refuses numbers that people or programs read in different ways.
func refuseForm(text string, end int) *Error {
	number, tail := text[:end], text[end:]
	digits := number[signLength(number):]
	if strings.HasPrefix(tail, ":") && digitsAt(tail, 1) > 0 {
		return refuse(text, words("a duration is written with units: 9 h 30 min"), "%s looks like a time of day", excerpt(text))
	}
	if len(digits) > 1 && digits[0] == '0' && digits[1] >= '0' && digits[1] <= '9' {
		plain := strings.TrimLeft(digits, "0")
		if plain == "" || plain[0] < '0' || plain[0] > '9' {
			plain = "0" + plain
		}
		return refuse(text, writeLike(number[:signLength(number)]+plain+tail), "%s begins with a zero, which some read as octal", excerpt(number))
	}
	if digits == "0" && (strings.HasPrefix(tail, "x") || strings.HasPrefix(tail, "X")) {
		return refuse(text, words("write it as a decimal number"), "%s is hexadecimal", excerpt(text))
	}
	return refuseGrouping(text, number, tail)
}

func refuseGrouping(text, number, tail string) *Error {
	mark, size := utf8.DecodeRuneInString(tail)
	after := tail[min(size, len(tail)):]
	more := digitsAt(after, 0)
	if mark == ',' {
		if err := refuseBothMarks(text, number, after); err != nil {
			return err
		}
	}
	switch {
	case mark == ',' && more == 3:
		return refuse(text, offer("write "+excerpt(number+after)+" or ", number+"."+after),
			"%s can be read in two ways", excerpt(number+tail[:size+more]))
	case mark == ',':
		return refuse(text, writeLike(number+"."+after), "%s has a comma where a point is wanted", excerpt(number+tail[:size+more]))
	case mark == '.' && more == 0 && (after == "" || unicode.IsSpace(firstRune(after))):
		return refuse(text, writeLike(number+after), "%s ends with a point", excerpt(number+"."))
	case mark == '.' && more > 0:
		return refuse(text, words("write it with one point and no grouping"), "%s has two points", excerpt(number+tail[:size+more]))
	case mark == '_' || mark == '\'' || mark == '’':
		return refuse(text, writeLike(regroup(number, tail)), "%s groups its digits", excerpt(text))
	case firstRune(strings.TrimLeftFunc(tail, unicode.IsSpace)) == '×':
		return refuse(text, words("write powers of ten like this: 3.5e4"), "%s is not a plain number", excerpt(text))
	}
	if unicode.IsSpace(mark) && gap(tail) {
		return refuse(text, writeLike(regroup(number, tail)), "%s has a gap in its number", excerpt(text))
	}
	return nil
}

// refuseBothMarks refuses a number whose comma is not its only mark: one of 1.534,5 and
// 1,534.5 groups its digits, and the other stands before the decimals.
func refuseBothMarks(text, number, after string) *Error {
	const group = 3
	more := digitsAt(after, 0)
	whole, decimals, pointed := strings.Cut(number, ".")
	further := strings.TrimLeft(after[more:], ",.") != after[more:]
	switch {
	case pointed && len(decimals) == group && !further:
		return refuse(text, writeLike(whole+decimals+"."+after), "%s has a point and a comma", excerpt(number+","+after[:more]))
	case more == group && strings.HasPrefix(after[more:], ".") && !pointed:
		rest := after[more+1:]
		n := digitsAt(rest, 0)
		if strings.IndexAny(rest[n:], ",.") != 0 {
			return refuse(text, writeLike(number+after), "%s has a comma and a point", excerpt(number+","+after[:more+1+n]))
		}
	}
	if pointed || further {
		return refuse(text, words("write it with one point and no grouping"), "%s has several marks in its number", excerpt(text))
	}
	return nil
}

// gap tells whether tail goes on with digits that are not the 1 of "1/s".
func gap(tail string) bool {
	tail = strings.TrimLeftFunc(tail, unicode.IsSpace)
	n := digitsAt(tail, 0)
	if n == 0 {
		return false
	}
	stroke := strings.HasPrefix(strings.TrimLeftFunc(tail[n:], unicode.IsSpace), "/")
	return n != 1 || tail[0] != '1' || !stroke
}

// regroup joins the groups of digits at the head of tail to number.
func regroup(number, tail string) string {
	for gap(strings.Map(groupToSpace, tail)) {
		tail = strings.TrimLeftFunc(tail, func(r rune) bool { return groupToSpace(r) == ' ' })
		n := digitsAt(tail, 0)
		number, tail = number+tail[:n], tail[n:]
	}
	return number + tail
}

func groupToSpace(r rune) rune {
	if r == '_' || r == '\'' || r == '’' || unicode.IsSpace(r) {
		return ' '
	}
	return r
}

func firstRune(text string) rune {
	r, _ := utf8.DecodeRuneInString(text)
	return r
}
