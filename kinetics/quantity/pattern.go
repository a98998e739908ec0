package quantity

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"
)

// A Sign says which numbers a pattern lets through.
type Sign int

// The signs. A temperature may be below the zero of its unit however warm it is: its
// pattern takes any sign.
const (
	AnySign Sign = iota
	NotNegative
	AboveZero
)

// Pattern returns a regular expression for the texts that [Parse] reads as a Q, made from
// the table of units, in the syntax that RE2 and ECMA-262 share. It matches every text
// that Parse reads with a value of the sign, and no text with a unit of something else
// only. It is wider than Parse in what nobody writes: brackets that do not close, a
// point behind a number, minutes before hours, numbers out of reach.
func Pattern[Q Quantity](sign Sign) string { return Q(0).dimension().pattern(sign) }

// NumberPattern is the pattern of [ParseNumber].
func NumberPattern() string { return "^" + gaps + number[AnySign] + gaps + "$" }

// NotBlank is a pattern of texts that hold more than spaces.
const NotBlank = `[^` + spaces + `]`

// Parts of patterns. What unicode.IsSpace knows is spelt out, since the \s of one syntax
// has other signs than that of the other.
const (
	spaces  = `\t-\r \x85\xA0` + "\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000"
	gaps    = `[` + spaces + `]*`
	between = `[` + spaces + `·⋅•∙*.()]`
	strokes = `[/` + spaces + `·⋅•∙*.()]*`
	minus   = `[-−]`
	exp     = `(?:[eE][-+−]?[0-9]+)?`
	plain   = `(?:(?:0|[1-9][0-9]*)(?:\.[0-9]+)?|\.[0-9]+)`
	zero    = `(?:0(?:\.0+)?|\.0+)`
	some    = `(?:[1-9][0-9]*(?:\.[0-9]+)?|0?\.[0-9]*[1-9][0-9]*)`
)

var number = map[Sign]string{
	AnySign:     `(?:[-+−]?` + plain + exp + `)`,
	NotNegative: `(?:\+?` + plain + exp + `|` + minus + zero + exp + `)`,
	AboveZero:   `(?:\+?` + some + exp + `)`,
}

func (d *dimension) pattern(sign Sign) string {
	var forms []string
	for i := range d.units {
		forms = append(forms, d.units[i].forms()...)
		if d.units[i].offset != 0 {
			sign = AnySign
		}
	}
	unit := between + "*" + either(forms)
	first, more := number[sign]+unit, ""
	if d.compound {
		// After the first number a zero in front is no octal: 1 h 05 min. That units
		// descend is not in the pattern.
		more = `(?:(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)` + exp + unit + `)`
		if sign == AboveZero { // 0 h 30 min
			return "^" + gaps + either([]string{first + more + "*", number[NotNegative] + unit + more + "+"}) + "$"
		}
		more += "*"
	}
	return "^" + gaps + first + more + "$"
}

// forms are patterns of the spellings of a unit, one for each key.
func (u *unit) forms() []string {
	var forms []string
	seen := map[string]bool{}
	for _, text := range append([]string{u.name}, u.also...) {
		factors, _ := factorsOf(text)
		key := keyOf(factors)
		// Without regard to case one key stands for all; see harmless.
		fold := strings.ToLower(key)
		if !harmless(key) {
			fold = key
		}
		if !seen[fold] {
			seen[fold] = true
			forms = append(forms, formOf(factors, harmless(key)))
		}
	}
	return forms
}

// formOf matches the factors in any order, so many of them above the stroke and the others
// with the opposite power below it.
func formOf(factors []factor, foldCase bool) string {
	return either([]string{
		rest(factors, 1, foldCase),
		`(?:1` + gaps + `)?/` + strokes + rest(factors, -1, foldCase),
	})
}

// rest matches the factors from where a symbol begins to the end; sign is -1 below the
// stroke. A symbol without a power ends where another sign than a letter follows.
func rest(factors []factor, sign int, foldCase bool) string {
	var forms []string
	for i, f := range factors {
		symbol, power := symbolPattern(f.symbol, foldCase), powerPattern(sign*f.power)
		others := slices.Delete(slices.Clone(factors), i, i+1)
		after := between + "*"
		if sign < 0 {
			after = strokes
		}
		gap := power + after
		if f.power*sign == 1 {
			gap = either([]string{power + after, after[:len(after)-1] + "+"})
			power = `(?:` + power + `)?`
		}
		if len(others) == 0 {
			forms = append(forms, symbol+power+strokes) // a stroke with nothing below is read over
			continue
		}
		further := gap + rest(others, sign, foldCase)
		if sign > 0 {
			further = either([]string{further, power + after + `/` + strokes + rest(others, -1, foldCase)})
		}
		forms = append(forms, symbol+further)
	}
	return either(forms)
}

func either(forms []string) string {
	if len(forms) == 1 {
		return forms[0]
	}
	return `(?:` + strings.Join(forms, "|") + `)`
}

// powerPattern is what scanPower reads as the power.
func powerPattern(power int) string {
	sign := ""
	if power < 0 {
		sign, power = `[-⁻−]`, -power
	}
	digit := fmt.Sprintf(`[0⁰]?[%d%c]`, power, []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[power])
	return `\^?` + sign + digit
}

// symbolPattern is the symbol, its look-alikes and, where case is folded, its letters in
// either case, but for M; see harmless.
func symbolPattern(symbol string, foldCase bool) string {
	var b strings.Builder
	for _, letter := range symbol {
		signs := []rune{letter}
		if foldCase {
			signs = append(signs, capitals()[unicode.ToLower(letter)]...)
			signs = append(signs, unicode.ToLower(letter))
		}
		class := ""
		for _, r := range signs {
			if (r != 'M' || !foldCase) && !strings.ContainsRune(class, r) {
				class += string(r)
			}
		}
		switch letter {
		case 'µ':
			class += "μ"
		case '°':
			class += "º"
		}
		b.WriteString(`[` + class + `]`)
	}
	return b.String()
}

// capitals are the letters that become a letter in lower case: K, and the sign of kelvin.
var capitals = sync.OnceValue(func() map[rune][]rune {
	all := map[rune][]rune{}
	for r := range rune(unicode.MaxRune) {
		if low := unicode.ToLower(r); low != r {
			all[low] = append(all[low], r)
		}
	}
	return all
})
