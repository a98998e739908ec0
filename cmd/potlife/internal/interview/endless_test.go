package interview_test

import (
	"bytes"
	"strings"
	"testing"

	"potlife/cmd/potlife/internal/interview"
)

// endless answers for ever, after some answers that are taken.
type endless struct {
	head string
	line string
}

func (e *endless) Read(into []byte) (int, error) {
	if e.head != "" {
		n := copy(into, e.head)
		e.head = e.head[n:]
		return n, nil
	}
	return copy(into, e.line+"\n"), nil
}

// TestEndlessAnswers: a program that answers for ever is refused 20 times and then left, whether
// a question refuses its answer or the statement made of the answers is refused; one whose
// answers are good has given enough at some time. The last is told with what to do.
func TestEndlessAnswers(t *testing.T) {
	const head = "x\nepoxy-ipda\n\n"
	for _, c := range []struct{ head, line, refusal, says string }{
		{"", "1x", "begins with a letter", "20 answers were refused one after another, so that nothing is written"},
		{"", "x", "no built-in system is called x", "20 answers were refused"},
		{"", "", "this one is needed", "20 answers were refused"},
		{"x\nepoxy-ipda\n", "27", "has no unit", "20 answers were refused"},
		{head + "\n\n\n\n\n", "5 J/g", "J/g", "20 answers were refused"},
		{head + "\n\n", "5 h\n25 °C", "", "1000 statements were given"},
	} {
		var screen bytes.Buffer
		_, err := interview.New(&endless{c.head, c.line}, &screen).Ask(func(string) error { return nil })
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "\n   ") {
			t.Errorf("%q: %v", c.line, err)
			continue
		}
		if !strings.HasSuffix(screen.String(), "\n") {
			t.Errorf("%q: the error would stand behind a question: %q", c.line, screen.String()[screen.Len()-40:])
		}
		if c.refusal != "" && (!strings.Contains(err.Error(), c.refusal) || strings.Count(screen.String(), c.refusal) < 19) {
			t.Errorf("%q: refused %d times on the screen, %v", c.line, strings.Count(screen.String(), c.refusal), err)
		}
	}
}
