package documenttest

import (
	"iter"
	"regexp"
	"strings"
)

// numbers of a text, with their signs; not those within words.
var numbers = regexp.MustCompile(`(^|[\s\[{:,(])([-+]?\d[\d.]*(?:e[-+]?\d+)?)`)

// slips are what a person, or a program, may write for a number.
var slips = []string{"0", "-1", "1e-299", "1e299", "0.001", "1000", "1e6", "1e-6"}

// Amiss yields a text again and again, each time with one of its numbers, but for those in
// comments, replaced by what is no likely value of it.
func Amiss(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, m := range numbers.FindAllStringSubmatchIndex(text, -1) {
			line := text[strings.LastIndexByte(text[:m[4]], '\n')+1 : m[4]]
			if strings.Contains(line, "#") {
				continue
			}
			for _, slip := range slips {
				if !yield(text[:m[4]] + slip + text[m[5]:]) {
					return
				}
			}
		}
	}
}
