package quantity

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// factor is one symbol of a unit and its power.
type factor struct {
	symbol string
	power  int
}

// spell reduces a unit's text to a key that all its spellings share: its symbols in
// order, each with its power. It reports false if the text is not a unit by form.
func spell(text string) (string, bool) {
	factors, ok := factorsOf(text)
	if !ok {
		return "", false
	}
	return keyOf(factors), true
}

// factorsOf returns the factors of a unit's text in the order written.
func factorsOf(text string) ([]factor, bool) {
	s := speller{rest: text, sign: 1}
	for s.rest != "" {
		if !s.step() {
			return nil, false
		}
	}
	return s.factors, s.depth == 0 && len(s.factors) > 0
}

type speller struct {
	rest    string
	sign    int // -1 below the stroke
	depth   int
	factors []factor
}

// step consumes one symbol, stroke, bracket, separator or leading 1.
func (s *speller) step() bool {
	r, size := utf8.DecodeRuneInString(s.rest)
	switch {
	case symbolic(r):
		return s.symbol()
	case r == '/':
		s.sign = -1
	case r == '(':
		s.depth++
	case r == ')':
		s.depth--
	case r == '1' && len(s.factors) == 0 && s.sign == 1:
		if rest := strings.TrimLeftFunc(s.rest[size:], unicode.IsSpace); !strings.HasPrefix(rest, "/") {
			return false
		}
	case !separating(r):
		return false
	}
	s.rest = s.rest[size:]
	return s.depth == 0 || s.depth == 1
}

func (s *speller) symbol() bool {
	end := strings.IndexFunc(s.rest, func(r rune) bool { return !symbolic(r) })
	if end < 0 {
		end = len(s.rest)
	}
	symbol := foldLookalikes.Replace(s.rest[:end])
	power, rest, ok := scanPower(s.rest[end:])
	if !ok {
		return false
	}
	s.rest = rest
	s.factors = append(s.factors, factor{symbol, s.sign * power})
	return true
}

// keyOf sorts the factors, without regard to case, so that kg/l finds the place of kg/L.
func keyOf(factors []factor) string {
	slices.SortFunc(factors, func(a, b factor) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.symbol), strings.ToLower(b.symbol)), strings.Compare(a.symbol, b.symbol))
	})
	var b strings.Builder
	for i, f := range factors {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(f.symbol)
		b.WriteString(strconv.Itoa(f.power))
	}
	return b.String()
}

// foldLookalikes maps signs that look alike onto one: Greek mu onto micro, the
// masculine ordinal onto the degree.
var foldLookalikes = strings.NewReplacer("μ", "µ", "º", "°")

func symbolic(r rune) bool {
	return unicode.IsLetter(r) || r == '°' || r == '%' || r == '℃' || r == '℉'
}

func separating(r rune) bool {
	return unicode.IsSpace(r) || strings.ContainsRune("·⋅•∙*.", r)
}

// scanPower reads an optional power: 2, ^2, ², -1, ^-1, ⁻¹. Two digits are plenty.
func scanPower(text string) (power int, rest string, ok bool) {
	plain := foldSuperscripts.Replace(text[:min(len(text), maxPowerBytes)])
	head, caret := strings.CutPrefix(plain, "^")
	head, negative := strings.CutPrefix(head, "-")
	digits := 0
	for digits < len(head) && head[digits] >= '0' && head[digits] <= '9' {
		power = 10*power + int(head[digits]-'0')
		digits++
	}
	switch {
	case digits == 0 && !caret && !negative:
		return 1, text, true
	case digits == 0 || digits > 2:
		return 0, text, false
	}
	for range len(plain) - len(head) + digits {
		_, size := utf8.DecodeRuneInString(text)
		text = text[size:]
	}
	if negative {
		power = -power
	}
	return power, text, true
}

// maxPowerBytes holds a caret, a minus and three superscript digits of three bytes each.
const maxPowerBytes = 13

// foldSuperscripts keeps the number of runes, on which scanPower relies.
var foldSuperscripts = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5",
	"⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-", "−", "-")
