package interview_test

import (
	"bytes"
	"io"
	"os"
	"strings"
	"testing"

	"potlife/cmd/potlife/internal/interview"
	"potlife/cmd/potlife/internal/report"
	"potlife/resins/catalogue"
	"potlife/resins/fit"
)

// keyboard gives an answer a read, and the line end that a terminal shows of it.
type keyboard struct {
	answers []string
	screen  *bytes.Buffer
}

func (k *keyboard) Read(into []byte) (int, error) {
	if len(k.answers) == 0 {
		return 0, io.EOF
	}
	n := copy(into, k.answers[0]+"\n")
	k.answers = k.answers[1:]
	k.screen.WriteByte('\n')
	return n, nil
}

// TestNarrowTerminal: on 60 columns neither a question nor a doubt runs past the edge, and
// what each built-in system is stands beside its name before it is asked for.
func TestNarrowTerminal(t *testing.T) {
	answers, err := os.ReadFile("../../../../testdata/resins/answers.txt")
	if err != nil {
		t.Fatal(err)
	}
	var screen bytes.Buffer
	odd := strings.Replace(string(answers), "\n27 g\n", "\n28\n150 g\n", 1)
	asker := interview.New(&keyboard{strings.Split(odd, "\n"), &screen}, report.Page{Writer: &screen, Columns: 60})
	r, err := asker.Ask(func(string) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	shown := screen.String()
	for _, line := range strings.Split(shown, "\n") {
		if n := len([]rune(strings.TrimRight(line, " "))); n > 60 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	flat := strings.Join(strings.Fields(shown), " ")
	for _, want := range []string{
		"28 has no unit", "doubt: 150 g hardener to 100 g resin, where epoxy-ipda takes 24", "Log of a cup with a thermometer in it, a file beside this one, such as ./saturday.csv (Enter: none, or no more):",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("nowhere: %s", want)
		}
	}
	before, _, asked := strings.Cut(flat, "Nearest of them")
	for _, name := range catalogue.Systems() {
		if !asked || !strings.Contains(before, name+": ") {
			t.Errorf("%s is not said to be anything", name)
		}
	}
	if len(r.Warnings) != 1 || r.Warnings[0] != (fit.UnlikeRatio{System: "epoxy-ipda", Given: 150, Usual: 24}) {
		t.Errorf("warnings %+v", r.Warnings)
	}
}
