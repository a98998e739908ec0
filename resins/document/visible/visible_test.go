package visible

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "potlife/kinetics/testrun" // fixes rapid's seed
)

// TestRefuse: what cannot be seen is named with its number and its place, and what a language
// or a picture needs is let through.
func TestRefuse(t *testing.T) {
	for text, want := range map[string]string{
		"tow \x1b[31mbroke": "an escape (U+001B) stands at character 5 of “tow «U+001B»[31mbroke”",
		"ring\a":            "the bell (U+0007) stands at character 5",
		"a\u009b2J":         "an escape (U+009B) stands at character 2",
		"a\u0085":           "a control character (U+0085) stands at character 2",
		"two\nlines":        "a line break (U+000A) stands at character 4",
		"\u202ereversed":    "writing forced to the left (U+202E) stands at character 1",
		"lot\u2066R\u2069":  "a turn of the writing to the right (U+2066) stands at character 4",
		"Äß\u200f":          "a mark of writing from the right (U+200F) stands at character 3",
		"x\u061c":           "a mark of writing from the right (U+061C) stands",
		"R22\u200b17":       "a space without width (U+200B) stands",
		"R22\u200d17":       "an invisible character (U+200D) stands",
		"soft\u00adhyphen":  "a soft hyphen (U+00AD) stands",
		"\U000e0041":        "an invisible character (U+E0041) stands",
		"\u3164":            "an invisible character (U+3164) stands",
		"a\u2028b":          "a line break (U+2028) stands",
		"\ufeffa":           "a byte order mark (U+FEFF) stands",
		"a\ufe0f":           "an invisible character (U+FE0F) stands",
		strings.Repeat("ä", 200) + "\x00" + strings.Repeat("b", 200): "a null character (U+0000) stands at character 201 of “ä",
	} {
		if got := Refuse(text, ""); !strings.HasPrefix(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for _, text := range []string{"", "tow broke", "Härter 25 °C, 60 %", "می\u200cخواهم", "क्\u200dष", "⚠️", "👩\u200d🔧", "❤️\u200d🔥", "a\u00a0b", "\ufffd", "e\u0301"} {
		if got := Refuse(text, ""); got != "" {
			t.Errorf("%q is refused: %s", text, got)
		}
		if got := Text(text); got != text {
			t.Errorf("%q is shown as %q", text, got)
		}
	}
	if got := Refuse("a:\n\tb", "\n\t"); got != "" {
		t.Error(got)
	}
}

// TestShown: nothing hidden is left in what is shown, whatever was given, and a text without any
// stays as it is.
func TestShown(t *testing.T) {
	if got := Text("a\tb\nc\x1b[2J\u202e\xff"); got != "a b⏎c«U+001B»[2J«U+202E»\ufffd" {
		t.Errorf("%q", got)
	}
	var out bytes.Buffer
	if n, err := Writer(&out).Write([]byte("a\tb\n\r\u2067")); n != 8 || err != nil || out.String() != "a\tb\n«U+000D»«U+2067»" {
		t.Errorf("%d, %v: %q", n, err, out.String())
	}
	rapid.Check(t, func(t *rapid.T) {
		text := anything().Draw(t, "text")
		if place, r := Find(Text(text), ""); place >= 0 || !utf8.ValidString(Text(text)) {
			t.Fatalf("%q is shown as %q, with %U", text, Text(text), r)
		}
		if place, r := Find(Lines(text), "\n\t"); place >= 0 {
			t.Fatalf("%q is shown as %q, with %U", text, Lines(text), r)
		}
		if Refuse(text, "") == "" && utf8.ValidString(text) && Text(text) != text {
			t.Fatalf("%q is shown as %q", text, Text(text))
		}
	})
}

func anything() *rapid.Generator[string] {
	return rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
		rapid.StringOf(rapid.SampledFrom([]rune("ab\"\\/ü👩\x00\a\x1b\n\t\r\x7f\u009b\u00ad\u061c\u200b\u200c\u200d\u202e\u2066\u2028\ufeff\ufe0f\U000e0041"))))
}

// TestJSON: an object reads as before but for what is hidden in its texts, written out or
// escaped; Escape keeps its meaning whole.
func TestJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.ToValidUTF8(anything().Draw(t, "text"), "?")
		line, err := json.Marshal(map[string]string{"a": text})
		if err != nil {
			t.Fatal(err)
		}
		for _, object := range [][]byte{line, Escape(line), escapedThroughout(text)} {
			var whole, shown map[string]string
			if err := json.Unmarshal(object, &whole); err != nil || whole["a"] != text {
				t.Fatalf("%q became %q, %v", text, object, err)
			}
			if err := json.Unmarshal(JSON(object), &shown); err != nil || shown["a"] != Text(text) {
				t.Fatalf("%q is shown as %q, %v; want %q", object, shown["a"], err, Text(text))
			}
		}
		if place, r := Find(string(Escape(line)), ""); place >= 0 {
			t.Fatalf("%q holds %U", Escape(line), r)
		}
	})
	plain := []byte(`{"kind":"note","text":"tow broke"}`)
	if got := JSON(plain); &got[0] != &plain[0] {
		t.Error("a plain line is copied")
	}
}

// escapedThroughout writes every character as an escape.
func escapedThroughout(text string) []byte {
	var b bytes.Buffer
	b.WriteString(`{"a":"`)
	for _, r := range text {
		quoted, _ := json.Marshal(string(r)) // never fails
		if escaped := Escape([]byte(strings.Trim(string(quoted), `"`))); len(escaped) > 1 && escaped[0] == '\\' {
			b.Write(escaped)
		} else if r < 0x10000 {
			b.WriteString(`\u` + strings.ToUpper(hex4(r)))
		} else {
			b.WriteRune(r)
		}
	}
	b.WriteString(`"}`)
	return b.Bytes()
}

func hex4(r rune) string {
	const digits = "0123456789abcdef"
	return string([]byte{digits[r>>12&15], digits[r>>8&15], digits[r>>4&15], digits[r&15]})
}

// TestYAML: the source of an old file keeps its lines and its signs.
func TestYAML(t *testing.T) {
	for source, want := range map[string]string{
		"\ufeffname: a\u202eb # \u200b\n":        "\ufeffname: a«U+202E»b # «U+200B»\n",
		`name: "a\u202Eb\x9b\U000e0041\e"`:       `name: "a«U+202E»b«U+009B»«U+E0041»«U+001B»"`,
		`caution: "two\nlines \\ \" \t ä"`:       `caution: "two\nlines \\ \" \t ä"`,
		"layers:\n\t- hoop\r\n  - {time: 5 min}": "layers:\n\t- hoop\r\n  - {time: 5 min}",
	} {
		if got := string(YAML([]byte(source))); got != want {
			t.Errorf("%q became %q, want %q", source, got, want)
		}
	}
}
