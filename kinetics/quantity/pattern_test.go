package quantity

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// spelt draws a text for a unit of the table as a person might write it: factors in any
// order, on either side of the stroke, powers in any dress, letters in any case.
func spelt(t *rapid.T, name string) string {
	factors, ok := factorsOf(name)
	if !ok {
		t.Fatalf("%s is no unit", name)
	}
	factors = rapid.Permutation(factors).Draw(t, "order")
	stroke := rapid.IntRange(0, len(factors)).Draw(t, "above the stroke")
	gap := func() string {
		return rapid.SampledFrom([]string{"", "", "", " ", "·", "*", ".", "\u00a0", " ⋅ "}).Draw(t, "gap")
	}
	text := gap()
	for i, f := range factors {
		power := f.power
		if i == stroke {
			text += rapid.SampledFrom([]string{"/", " / ", "/("}).Draw(t, "stroke")
		}
		if i >= stroke {
			power = -power
		}
		text += f.symbol
		if power != 1 || rapid.Float64().Draw(t, "one") < 0.1 {
			digits := strconv.Itoa(power)
			if rapid.Bool().Draw(t, "raised") {
				digits = strings.Map(func(r rune) rune {
					if r == '-' {
						return '⁻'
					}
					return []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[r-'0']
				}, digits)
			} else if rapid.Bool().Draw(t, "caret") {
				digits = "^" + digits
			}
			text += digits + gap()
		} else if i < len(factors)-1 {
			text += rapid.SampledFrom([]string{" ", "·", "*"}).Draw(t, "between")
		}
	}
	if strings.Contains(text, "(") {
		text += ")"
	}
	switch rapid.IntRange(0, 5).Draw(t, "case") {
	case 0:
		text = strings.ToUpper(text)
	case 1:
		text = strings.ToLower(text)
	case 2:
		text = strings.NewReplacer("K", "\u212a", "µ", "μ", "°", "º", "i", "İ").Replace(text)
	}
	return text
}

func numberText(t *rapid.T) string {
	return rapid.SampledFrom([]string{"", "", "", "+", "-", "−"}).Draw(t, "sign") +
		rapid.SampledFrom([]string{"0", "0.0", ".0", "5", "120", "0.5", ".25", "1.50", "10.05", "012", "1,5", "1_000", "5.", "x"}).Draw(t, "digits") +
		rapid.SampledFrom([]string{"", "", "", "e3", "E-2", "e+05", "e−3"}).Draw(t, "exponent")
}

// TestPatternsTakeWhatParseReads: a schema that refused what the program reads would send
// a crew after a fault that is none.
func TestPatternsTakeWhatParseReads(t *testing.T) {
	for _, d := range dimensions {
		t.Run(d.noun(), func(t *testing.T) {
			patterns := map[Sign]*regexp.Regexp{}
			for _, sign := range []Sign{AnySign, NotNegative, AboveZero} {
				patterns[sign] = regexp.MustCompile(d.pattern(sign))
			}
			read, drawn := 0, 0
			rapid.Check(t, func(t *rapid.T) {
				drawn++
				u := rapid.SampledFrom(d.units).Draw(t, "unit")
				name := rapid.SampledFrom(append([]string{u.name}, u.also...)).Draw(t, "name")
				text := numberText(t) + rapid.SampledFrom([]string{" ", "", "\t", "\u2009"}).Draw(t, "space") + spelt(t, name)
				if d.compound && rapid.Bool().Draw(t, "compound") {
					text += rapid.SampledFrom([]string{" ", ""}).Draw(t, "space") + rapid.SampledFrom([]string{"05 min", "30min", "0 s", ".5 s"}).Draw(t, "rest")
				}
				si, err := d.parse(text)
				if err != nil {
					return
				}
				read++
				for sign, pattern := range patterns {
					if (sign == AnySign || sign == NotNegative && si >= 0 || sign == AboveZero && si > 0) && !pattern.MatchString(text) {
						t.Fatalf("%q is read as %v and not matched for sign %d by\n%s", text, si, sign, pattern)
					}
				}
			})
			if read < 1+drawn/5 { // a fifth; some of the numbers are meant to be refused
				t.Errorf("only %d texts of %d were read: nothing is tested", read, drawn)
			}
		})
	}
}

// TestPatternsRefuse: a bare number, a number in a wrong form, a unit of something else, and
// a value of the wrong sign are refused by Parse or its caller, and by the pattern.
func TestPatternsRefuse(t *testing.T) {
	for _, d := range dimensions {
		anySign := regexp.MustCompile(d.pattern(AnySign))
		refusedOnly := func(text string) {
			t.Helper()
			if _, err := d.parse(text); err == nil {
				return
			}
			if anySign.MatchString(text) {
				t.Errorf("%s: %q is refused by Parse and matched by the pattern", d.noun(), text)
			}
		}
		for _, number := range []string{"5", "1,5 " + d.usual, "1 000 " + d.usual, "1_000 " + d.usual, "007 " + d.usual, "", d.usual, "NaN " + d.usual, ".inf", "0x1F " + d.usual, "1.2.3 " + d.usual} {
			refusedOnly(number)
		}
		foreign := 0
		for _, other := range dimensions {
			for _, u := range other.units {
				for _, name := range append([]string{u.name}, u.also...) {
					if d.find(name) == nil {
						foreign++
					}
					refusedOnly("5 " + name)
					refusedOnly("5 " + strings.ToUpper(name))
					refusedOnly("5 " + strings.ToLower(name))
				}
			}
		}
		if foreign < 40 {
			t.Errorf("%s: only %d foreign units", d.noun(), foreign)
		}
		if slices.ContainsFunc(d.units, func(u unit) bool { return u.offset != 0 }) {
			continue
		}
		for text, matched := range map[string][3]bool{
			"-5": {true, false, false}, "−0.1": {true, false, false}, "0": {true, true, false}, "-0": {true, true, false},
			"0.00": {true, true, false}, "0.01": {true, true, true}, "5": {true, true, true}, "+5e3": {true, true, true},
		} {
			for sign, want := range matched {
				if got := regexp.MustCompile(d.pattern(Sign(sign))).MatchString(text + " " + d.usual); got != want {
					t.Errorf("%s %s, sign %d: matched %v", text, d.usual, sign, got)
				}
			}
		}
	}
}

// TestSpacesOfPatterns: the list in pattern.go is that of package unicode.
func TestSpacesOfPatterns(t *testing.T) {
	space := regexp.MustCompile(`^[` + spaces + `]$`)
	for r := range rune(unicode.MaxRune) {
		if r >= 0xd800 && r < 0xe000 {
			continue
		}
		if space.MatchString(string(r)) != unicode.IsSpace(r) {
			t.Errorf("%U: a space here, or there, alone", r)
		}
	}
}
