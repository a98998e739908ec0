package document

import (
	"slices"
	"strings"
)

// readFields reads a mapping by its table and reports unknown and missing keys.
func (n Node) readFields(fields []Field) {
	pairs := n.Pairs()
	present := make(map[string]bool, len(pairs))
	for _, pair := range pairs {
		present[pair.Name] = true
	}
	pairs = n.underNewNames(pairs, fields, present)
	var excused []string // missing keys that were only misspelt
	for k, pair := range pairs {
		if k+1 < len(pairs) && halves(pair, pairs[k+1]) {
			pairs[k+1].Key.Fault(shown(pairs[k+1].Name)+" stands alone: a comma ends an entry between braces",
				"write a decimal number with a point: "+joined(pair, pairs[k+1]))
			continue
		}
		if k > 0 && halves(pairs[k-1], pair) {
			continue // told with what stands before its comma
		}
		i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == pair.Name })
		if i < 0 {
			if meant := n.unknownKey(pair, fields, present); meant != "" {
				excused = append(excused, meant)
			}
			continue
		}
		if decision := fields[i].Retired; decision != "" {
			pair.Key.Fault(pair.Name+" is no longer read", decision)
			continue
		}
		pair.Value.Read(fields[i])
	}
	if !n.IsMapping() {
		return
	}
	for _, f := range fields {
		if f.Required && !present[f.Name] && !slices.Contains(excused, f.Name) {
			n.in.fault(n.at, join(n.path, f.Name), "the key "+f.Name+" is missing"+n.inPlace()+f.inBrackets(), "write it like this: "+n.entry(f))
		}
	}
}

// unknownKey reports a key that the table does not have, and returns the key it was
// taken for, if any.
func (n Node) unknownKey(pair Pair, fields []Field, present map[string]bool) string {
	var free, known []string
	for _, f := range fields {
		if f.Retired != "" {
			continue
		}
		known = append(known, f.Name)
		if !present[f.Name] {
			free = append(free, f.Name)
		}
	}
	problem := "unknown key " + shown(pair.Name) + n.inPlace()
	if splitNumber(pair) {
		pair.Key.Fault(shown(pair.Name)+" stands alone: a comma ends an entry between braces",
			"write a decimal number with a point, such as 2.5")
		return ""
	}
	if home, ok := homeBelow(fields, n.path, pair.Name); ok { // nearer than any other
		pair.Key.Fault(problem, pair.Name+" belongs under "+home)
		return ""
	}
	if home, ok := n.in.homeOf(pair.Name, n.path); ok {
		pair.Key.Fault(problem, pair.Name+" belongs "+home)
		return ""
	}
	if near := nearest(pair.Name, free); near != "" {
		pair.Key.Fault(problem, "write "+near)
		return near
	}
	pair.Key.Fault(problem, "known keys here: "+strings.Join(known, ", "))
	return ""
}

// splitNumber recognises the second half of {length: 2,5 mm}.
func splitNumber(pair Pair) bool {
	return pair.Value.shape() == nothingShape && pair.Name != "" && pair.Name[0] >= '0' && pair.Name[0] <= '9'
}

// halves recognises {length: 2,5 mm} as a whole: the first half is then no number of its
// own that lacks a unit.
func halves(first, second Pair) bool {
	if !splitNumber(second) || !first.Value.IsScalar() {
		return false
	}
	text, _ := first.Value.Scalar()
	return text != "" && strings.Trim(text, "0123456789") == ""
}

// joined is the number that was meant; with three digits behind the comma it may be either.
func joined(first, second Pair) string {
	before, _ := first.Value.Scalar()
	decimals := len(second.Name) - len(strings.TrimLeft(second.Name, "0123456789"))
	pointed := shown(before + "." + second.Name)
	if decimals == 3 && before != "0" {
		return pointed + ", or " + shown(before+second.Name) + " if that is meant"
	}
	return pointed
}

// inBrackets is what the field means, to follow its name.
func (f Field) inBrackets() string {
	if f.Doc == "" {
		return ""
	}
	return " (" + f.Doc + ")"
}

func (n Node) inPlace() string {
	if n.path == "" {
		return ""
	}
	return " in " + shown(n.path)
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// homeOf searches the whole table for a key and tells where it belongs.
func (d *Document) homeOf(name, besides string) (string, bool) {
	for _, f := range d.fields {
		if f.Name == name && f.Retired == "" && besides != "" {
			return "at the top level", true
		}
	}
	path, ok := homeBelow(d.fields, "", name)
	return "under " + path, ok
}

func homeBelow(fields []Field, path, name string) (string, bool) {
	for _, f := range fields {
		at := path
		if f.Name != "" {
			at = join(path, f.Name)
		}
		below := slices.Clone(f.Fields)
		for _, form := range f.Forms {
			form.Name = "" // it stands where its field does
			below = append(below, form)
		}
		if f.Item != nil {
			below = append(below, f.Item())
		}
		if slices.ContainsFunc(f.Fields, func(part Field) bool { return part.Name == name && part.Retired == "" }) {
			return at, true
		}
		if home, ok := homeBelow(below, at, name); ok {
			return home, true
		}
	}
	return "", false
}

// nearest returns the known word that text is a slip of: at most a third of its letters
// wrong, and no more than two; empty if none is that near.
func nearest(text string, known []string) string {
	written := []rune(strings.ToLower(text))
	if len(written) > 64 {
		return ""
	}
	best, least := "", 3
	for _, word := range known {
		runes := []rune(strings.ToLower(word))
		if n := slips(written, runes); n < least && 3*n <= max(len(runes), 3) {
			best, least = word, n
		}
	}
	return best
}

// slips is the edit distance with neighbouring letters swapped as one slip (optimal
// string alignment), since that is the commonest slip of the hand.
func slips(a, b []rune) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(a)][len(b)]
}
