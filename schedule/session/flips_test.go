package session

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"potlife/kinetics/testrun"
)

// openText opens a journal of this text.
func openText(t testing.TB, folder string, text []byte) (*Journal, Report, error) {
	t.Helper()
	place(t, folder, text)
	return openUnsynced(folder)
}

// wantDamaged checks that a text is refused for this line, and left as it is.
func wantDamaged(t *testing.T, folder string, text []byte, line int) {
	t.Helper()
	j, report, err := openText(t, folder, text)
	if err == nil {
		_ = j.Close()
		t.Errorf("accepted: %d entries, report %+v", len(j.Entries()), report)
		return
	}
	var damaged *Damaged
	if !errors.As(err, &damaged) || damaged.Line != line {
		t.Errorf("%v; want damage in line %d", err, line)
	}
	if !bytes.Equal(contents(t, folder), text) {
		t.Error("the damaged file was changed")
	}
}

// TestEveryFlip turns each bit of a journal: it is refused with the number of the line,
// the last one and its newline included, which were acknowledged.
func TestEveryFlip(t *testing.T) {
	appends, bits := testrun.Count(10, 14), testrun.Count(1, 8)
	text, _, ends := history(t, appends)
	folder := t.TempDir()
	line := 1
	for at := range text {
		if at >= ends[line] {
			line++
		}
		for bit := range bits {
			flipped := bytes.Clone(text)
			flipped[at] ^= 1 << ((bit + at) % 8)
			wantDamaged(t, folder, flipped, line)
			if t.Failed() {
				t.Fatalf("bit %d of byte %d in line %d", (bit+at)%8, at, line)
			}
		}
	}
	t.Logf("%d bits turned", len(text)*bits)
}

// TestMovedLines: lines that are whole, but not where they were logged, are refused.
func TestMovedLines(t *testing.T) {
	text, _, _ := history(t, 5)
	lines := strings.SplitAfter(string(text), "\n")
	a, b, c := lines[0], lines[1], lines[2]
	folder := t.TempDir()
	for name, try := range map[string]struct {
		text string
		line int
	}{
		"missing first":     {b + c, 1},
		"missing":           {a + c, 2},
		"doubled":           {a + b + b, 3},
		"swapped":           {a + c + b, 2},
		"empty line":        {a + "\n" + b, 2},
		"empty last line":   {a + "\n", 2},
		"two on one line":   {a + strings.TrimSuffix(b, "\n") + c, 2},
		"carriage returns":  {a + strings.TrimSuffix(b, "\n") + "\r\r\n", 2},
		"nothing but zeros": {a + strings.Repeat("\x00", LongestLine), 2},
		"endless":           {a + b + strings.Repeat("x", 3*readWindow), 3},
		"endless to an end": {a + b + strings.Repeat("x", LongestLine) + "\n", 3},
		"end overwritten":   {a + strings.TrimSuffix(b, "\n") + "\x00\x00", 2},
	} {
		t.Run(name, func(t *testing.T) { wantDamaged(t, folder, []byte(try.text), try.line) })
	}
}

// TestForeignLines: a line with a fitting checksum that is no entry is refused all the same.
func TestForeignLines(t *testing.T) {
	folder := t.TempDir()
	for _, object := range []string{
		``, `null`, `3`, `[]`, `{}`, `{"seq":0}`, `{"seq":2}`, `{"seq":"1"}`, `{"seq":1.5}`, `{"seq":null}`,
		`{"Seq":1}`, `{"seq":1,"key":3}`, `{"seq":1`, `{"seq":1}{}`, `{"seq":1e99}`,
	} {
		t.Run(object, func(t *testing.T) {
			wantDamaged(t, folder, []byte(object+"\t"+checksum([]byte(object))+"\n"), 1)
		})
	}
}

// TestZerosAtTheEnd: file systems may leave zeros where a line was being written when the
// power went; as they hold no newline, nothing there was acknowledged.
func TestZerosAtTheEnd(t *testing.T) {
	text, logged, _ := history(t, 3)
	torn := append([]byte(`{"seq":4,"n":`), make([]byte, 200)...)
	folder := t.TempDir()
	all := append(bytes.Clone(text), torn...)
	place(t, folder, all)
	goOn(t, folder, all, logged, torn)
}

// TestNewerFields: fields of a later version, also nested and with numbers that no float
// holds, are kept to the byte when this version logs behind them.
func TestNewerFields(t *testing.T) {
	object := `{"seq":1,"later":{"exact":12345678901234567890.10,"list":[]},"kind":"unheard-of"}`
	folder := t.TempDir()
	line := object + "\t" + checksum([]byte(object)) + "\n"
	j, _, err := openText(t, folder, []byte(line))
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	mustAppend(t, j, sample{N: 1})
	if got := string(j.Entries()[0].Payload); got != object {
		t.Errorf("payload %s, want %s", got, object)
	}
	if !bytes.HasPrefix(contents(t, folder), []byte(line)) {
		t.Error("the line was rewritten")
	}
}
