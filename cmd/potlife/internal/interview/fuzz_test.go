package interview_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"potlife/cmd/potlife/internal/interview"
	"potlife/resins/fit"
)

// FuzzAnswers: whatever the answers, each is refused at its line with a mend, or they make
// a file of statements that is read as so many.
func FuzzAnswers(f *testing.F) {
	answers, err := os.ReadFile("../../../../testdata/resins/answers.txt")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(answers)
	head := "x\nepoxy-ipda\n27 g\n\n\n"
	for _, text := range []string{
		"", "x\n", "1x\n", head, head + "45 min\n100 g\n23 °C\n\ngel\n\n\n\n\n\n\n\n\n", head + "\n\n\n0x1p-2\n5 h\n25 °C\n\n\n\n\n", head + "\n\n\n\n\n430 J/g\n./a b\"\\\x7f\xff é.csv\n200 g\n80 mm\n22 °C\n\n\n",
		"x\nepoxy-ipda\n1e-299 g\n1 kg/m³\n\n\n", head + "45 min\n-\n-\n-\n-\n\n\n\n\n\n\n", strings.Repeat("x", 70_000) + "\n",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, answers []byte) {
		r, err := interview.NewFrom("answers.txt", bytes.NewReader(answers)).Ask(func(string) error { return nil })
		if err != nil {
			if !strings.Contains(err.Error(), "\n   ") && !strings.Contains(err.Error(), "; ") { // the latter of one value
				t.Fatalf("%q is no refusal with a mend", err)
			}
			return
		}
		s, err := fit.Read("x.statements.yaml", r.File())
		if err != nil {
			t.Fatalf("written as\n%s\nit is refused: %v", r.File(), err)
		}
		if s.Name != r.Name || len(s.List) != r.Statements() || len(s.List) == 0 {
			t.Fatalf("%s of %d statements is read as %s of %d", r.Name, r.Statements(), s.Name, len(s.List))
		}
		for _, one := range s.List {
			if one.Kind == fit.CupLog && !bytes.Contains(answers, []byte(one.File)) {
				t.Fatalf("the log is read as %q", one.File)
			}
		}
	})
}
