package document_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/resins/document"
)

// TestFaults checks place, problem and mend of each fault, one a line, in order.
func TestFaults(t *testing.T) {
	rows := []struct{ name, source, want string }{
		{"wrong dimension", "name: x\nlength: 5 kg", "2:9 5 kg is a mass, here a length is wanted | write it like this: 5 mm"},
		{"no unit", "name: x\nlength: 250", "2:9 250 has no unit, here a length is wanted | write it like this: 250 mm"},
		{"not positive", "name: x\nlength: 0 mm", "2:9 0 mm is not above zero | write a value above zero, at most 12 m"},
		{"above", "name: x\nlength: 13 m", "2:9 13 m is above 12 m | write a value above zero, at most 12 m"},
		{"below", "name: x\npick_up: -1", "2:10 -1 is below zero | write zero or more"},
		{"range", "name: x\ntows: 65", "2:7 65 is above 64 | write a value from 1 to 64"},
		{"no number", "name: x\ntows: two", "2:7 two does not begin with a number | write it like this: 1"},
		{"whole", "name: x\ntows: 1.5", "2:7 1.5 is not a whole number | write it like this: 2"},
		{"octal", "name: x\ntows: 010", "2:7 010 begins with a zero, which some read as octal | write it like this: 10"},
		{"yes", "name: x\nhelper: yes", "2:9 yes is neither true nor false | write true"},
		{"choice", "name: x\nrefill: layer", "2:9 layer is not one of layers, circuits | write layers"},
		{"far choice", "name: x\nrefill: never", "2:9 never is not one of layers, circuits | write one of: layers, circuits"},
		{"near key", "name: x\nlenght: 5 mm", "2:1 unknown key lenght | write length"},
		{"near required key", "nmae: x", "1:1 unknown key nmae | write name"},
		{"key of another place", "name: x\nlowest: 5 g", "2:1 unknown key lowest | lowest belongs under bath"},
		{"key of a list's item", "name: x\nbath: {lowest: 1 g, helical: 5 deg}", "2:21 unknown key helical in bath | helical belongs under layers"},
		{"key of the top", "name: x\nbath: {lowest: 1 g, length: 5 mm}", "2:21 unknown key length in bath | length belongs at the top level"},
		{"far key", "name: x\nbath: {lowest: 1 g, colour: red}", "2:21 unknown key colour in bath | known keys here: lowest, highest"},
		{"missing key", "length: 5 mm", "1:1 the key name is missing | write it like this: name: Telescope strut"},
		{"missing below", "name: x\nbath:\n  highest: 5 g", "2:1 the key lowest is missing in bath | write it like this: lowest: 250 g"},
		{"missing in braces", "name: x\nbath: {highest: 5 g}", "2:7 the key lowest is missing in bath | write it like this: lowest: 250 g"},
		{"missing in item", "name: x\nlayers:\n  - hoop\n  - time: 5 min", "4:5 the key helical is missing in layers[1] | write it like this: helical: 25 deg"},
		{"twice", "name: x\ntows: 1\nname: y", "3:1 name is written twice, first on line 1 | delete one of them"},
		{"nothing", "name:\nlength: 5 mm", "1:1 nothing is written here, but a text is wanted | write it like this: name: Telescope strut"},
		{"null", "name: x\nlength: null", "2:1 nothing is written here, but a length is wanted | write it like this: length: 250 mm"},
		{"empty text", "name: ''", "1:7 the text is empty | write a text or leave the key out"},
		{"mapping for scalar", "name: x\nlength: {a: 1}", "2:9 a mapping stands here, but a length is wanted | write it like this: length: 250 mm"},
		{"list for scalar", "name: x\nlength: [1]", "2:9 a list stands here, but a length is wanted | write it like this: length: 250 mm"},
		{"scalar for mapping", "name: x\nbath: 5 g", "2:7 a single value stands here, but a mapping is wanted | write it like this: bath: {lowest: 250 g}"},
		{"scalar for list", "name: x\nsteps: 5 s", "2:8 a single value stands here, but a list is wanted | write it like this: steps: [45 min]"},
		{"list in union", "name: x\nlayers: [[hoop]]", "2:10 a list stands here, but hoop or a mapping is wanted | write it like this: hoop"},
		{"custom", "name: x\nlayers: [hop]", "2:10 hop is no layer | write hoop"},
		{"comma in braces", "name: x\nbath: {lowest: 2,5 kg}", "2:18 5 kg stands alone: a comma ends an entry between braces | write a decimal number with a point: 2.5 kg"},
		{"three digits behind a comma in braces", "name: x\nbath: {lowest: 2,500 g}", "2:18 500 g stands alone: a comma ends an entry between braces | write a decimal number with a point: 2.500 g, or 2500 g if that is meant"},
		{"figure without a value in braces", "name: x\nbath: {lowest: 2 g, 5 kg}", "2:21 5 kg stands alone: a comma ends an entry between braces | write a decimal number with a point, such as 2.5"},
		{"anchor", "name: &x y", "1:7 an anchor (&) is not read here | write the value out, in quotes if it begins with &"},
		{"alias", "name: *x", "1:7 an alias (*) is not read here | write the value out, in quotes if it begins with *"},
		{"merge", "name: x\n<<: {tows: 1}", "2:1 a merge (<<) is not read here | write the keys out"},
		{"tag", "name: !!str x", "1:7 a tag (!) is not read here | leave the tag out, or put the value in quotes"},
		{"directive", "%YAML 1.2\n---\nname: x", "1:1 a directive (%) is not read here | leave the line out"},
		{"complex key", "? name\n: x", "1:1 a key after a question mark is not read here | write the key, a colon and the value on one line"},
		{"two documents", "name: x\n---\nname: y", "2:1 a second document begins here | keep one document in a file, without lines of --- or ..."},
		{"empty", "", "1:1 nothing is written here | write it like this: {name: Telescope strut}"},
		{"only a comment", "# later\n", "1:1 nothing is written here | write it like this: {name: Telescope strut}"},
		{"list at the top", "- a\n- b", "1:1 a list stands here, but a mapping of keys and values is wanted | write it like this: {name: Telescope strut}"},
		{"tab", "bath:\n\tlowest: 1 g", "2:1 a tab stands in the indentation | indent with spaces"},
		{"open bracket", "name: x\nsteps: [1 s, 2 s\n", "2:8 a bracket is opened and not closed | close the bracket"},
		{"missing comma", "bath: {lowest: 2 g\n  highest: 3 g}\n", "2:3 before this, a bracket is not closed or a comma is missing | close the bracket, or write the comma"},
		{"open double quotes", "name: x\nbath: {lowest: \"2 g}\n", "2:16 quotes are opened and not closed | close the quotes"},
		{"tab between", "bath:\n  lowest:\t1 g\n\thighest: 2 g", "3:1 a tab stands in the indentation | indent with spaces"},
		{"open quotes", "name: 'x\n", "1:7 quotes are opened and not closed | close the quotes"},
		{"two colons", "name: a: b", "1:7 a colon stands where none can | line the keys up, and put a text with a colon in quotes"},
		{"latin-1", "name: caf\xe9 x", "1:10 this is not UTF-8 | save the file with the encoding UTF-8"},
		{"control character", "name: a\x07b", "1:8 the bell (U+0007) does not belong into a text | delete it"},
		{"deep flow", "name: " + strings.Repeat("[", 100000), "1:39 this is nested too deeply | use at most 32 levels"},
		{"deep block", strings.Repeat("- ", 100000), "1:101 this is nested too deeply | use at most 32 levels"},
		{"large", strings.Repeat("# large\n", 1<<17+1), "1:1 the text has 1048584 bytes, at most 1048576 are read | check that this is the right file"},
		{"many lines", strings.Repeat("\n", 20000), "1:1 the text has 20001 lines, at most 20000 are read | check that this is the right file"},
		{"many entries", "steps: [" + strings.Repeat("1,", 30000) + "]", "1:1 the text has 60004 signs and words, at most 50000 are read | check that this is the right file"},
		{"characters, not bytes", "name: x\nbath: {\"µ\": 1, lowest: 5}", "2:8 unknown key µ in bath | known keys here: lowest, highest\n" +
			"2:24 5 has no unit, here a mass is wanted | write it like this: 5 g"},
		{
			"all at once", "name: x\r\nlength: 5\r\nbath:\r\n  lowest: 5 mm\r\n  hihgest: 5 g\r\n",
			"2:9 5 has no unit, here a length is wanted | write it like this: 5 mm\n" +
				"4:11 5 mm is a length, here a mass is wanted | write it like this: 5 g\n" +
				"5:3 unknown key hihgest in bath | write highest",
		},
	}
	for _, row := range rows {
		_, err := document.Read("job.yaml", []byte(row.source), new(job).fields())
		var faults *document.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: error %v, want *Faults", row.name, err)
			continue
		}
		var got []string
		for _, f := range faults.List {
			got = append(got, fmt.Sprintf("%d:%d %s | %s", f.Line, f.Column, f.Problem, f.Mend))
		}
		if text := strings.Join(got, "\n"); text != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.name, text, row.want)
		}
	}
}

// TestErrorText checks the layout of the message for several faults.
func TestErrorText(t *testing.T) {
	var length, width quantity.Length
	_, err := document.Read("job.yaml", []byte("# job\nlength: 5 kg\nwidth: µ\n"), []document.Field{
		document.Quantity("length", &length), document.Quantity("width", &width),
	})
	const want = `job.yaml:2:9: 5 kg is a mass, here a length is wanted
    2 | length: 5 kg
      |         ^
   write it like this: 5 mm
job.yaml:3:8: µ does not begin with a number
    3 | width: µ
      |        ^
   write it like this: 250 mm
2 faults`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// TestExcerptOfALongLine checks that the caret stays below its column.
func TestExcerptOfALongLine(t *testing.T) {
	var a, b quantity.Length
	line := "{a: " + strings.Repeat(" ", 200) + "5 mm, b: 7 kg" + strings.Repeat(" ", 200) + "}"
	_, err := document.Read("--x", []byte(line), []document.Field{document.Quantity("a", &a), document.Quantity("b", &b)})
	var faults *document.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("error %v", err)
	}
	text, caret, _ := strings.Cut(faults.List[0].Excerpt, "\n")
	if at := strings.Index(caret, "^"); at < 0 || at >= len(text) || !strings.HasPrefix(text[at:], "7 kg") || len(text) > 80 {
		t.Errorf("excerpt\n%s\n%s", text, caret)
	}
}

// TestManyFaults checks that a thoroughly wrong file gets a readable answer.
func TestManyFaults(t *testing.T) {
	_, err := document.Read("job.yaml", []byte("name: x\nsteps: ["+strings.Repeat("1, ", 100)+"]"), new(job).fields())
	if err == nil || !strings.HasSuffix(err.Error(), "\n100 faults, the first 30 are shown") || strings.Count(err.Error(), "^") != 30 {
		t.Errorf("error %v", err)
	}
}
