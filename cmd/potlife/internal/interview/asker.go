// Package interview asks for what is known of a resin, one figure at a time, and makes a
// statements file of the answers.
//
// A question says what is wanted, gives an example with its unit, and what Enter alone means.
// An answer that cannot be is told with its mend and asked for again. It does not matter
// whether the answers come from a terminal or from a pipe, a line each.
package interview

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/warning"
)

// ErrEnd tells that the answers ended before the questions.
var ErrEnd = errors.New("the answers end here, so that nothing is written\n   answer each question, or press Enter to pass it over")

// An Asker asks, and reads the answers.
type Asker struct {
	in   *bufio.Scanner
	out  io.Writer
	file string // of the answers; empty: somebody answers
	line int

	refused int // answers since one line of the file was settled
}

// mostRefused is how many answers are refused before the interview ends, without a line of the
// file settled between them: whoever answers is a program that does not listen.
const mostRefused = 20

// New returns an asker of somebody, who is asked again after a wrong answer.
func New(in io.Reader, out io.Writer) *Asker { return &Asker{in: bufio.NewScanner(in), out: out} }

// NewFrom returns an asker of a file of answers, which cannot be asked again: a wrong answer
// is an error, and so is one too many.
func NewFrom(file string, in io.Reader) *Asker {
	return &Asker{in: bufio.NewScanner(in), out: io.Discard, file: file}
}

// A question wants one answer.
type question struct {
	words, example string
	enter          string // what Enter alone means; empty: an answer is needed
	check          func(text string) (string, error)
}

// drop is the answer that gives up the statement in hand.
const drop = "-"

// ask asks until the answer can be. It is empty where Enter passed the question over, and
// drop where that is allowed.
func (a *Asker) ask(q question, droppable bool) (string, error) {
	prompt := q.words + ", such as " + q.example
	switch {
	case q.enter != "":
		prompt += " (Enter: " + q.enter + ")"
	case droppable:
		prompt += " (" + drop + " drops it)"
	}
	for {
		a.prompt(prompt + ":")
		if !a.in.Scan() {
			if err := a.unread(); err != nil {
				return "", err
			}
			return "", fmt.Errorf("%s: %w", q.name(), ErrEnd)
		}
		a.line++
		text := strings.TrimSpace(a.in.Text())
		switch {
		case text == "" && q.enter != "", text == drop && droppable:
			return text, nil
		case !utf8.ValidString(text):
			if err := a.tell(q.name() + ": this is not UTF-8\nwrite it with the encoding UTF-8"); err != nil {
				return "", err
			}
			continue
		case text == "":
			if err := a.tell(q.name() + ": this one is needed\nwrite it like this: " + q.example); err != nil {
				return "", err
			}
			continue
		}
		answer, err := q.check(text)
		if err == nil {
			return answer, nil
		}
		if err := a.tell(q.name() + ": " + err.Error()); err != nil {
			return "", err
		}
	}
}

// name is the question without the blanks that set it in.
func (q question) name() string { return strings.TrimSpace(q.words) }

// tell says what is wrong with an answer; the error is that nobody is there to mend it.
func (a *Asker) tell(text string) error {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	if a.file != "" {
		return fmt.Errorf("%s:%d: %s", a.file, a.line, strings.Join(lines, "\n   "))
	}
	if a.refused++; a.refused >= mostRefused {
		return fmt.Errorf("%s;\n   %d answers were refused one after another, so that nothing is written;\n   begin anew: each question shows an answer that it takes", strings.Join(lines, "\n   "), mostRefused)
	}
	for _, line := range lines {
		if _, err := io.WriteString(a.out, report.Fold(a.out, line, "   ", "   ")); err != nil {
			return err
		}
	}
	return nil
}

// prompt writes a question, set in as it is and folded, and leaves the cursor after it.
func (a *Asker) prompt(text string) {
	indent := text[:len(text)-len(strings.TrimLeft(text, " "))]
	fmt.Fprint(a.out, strings.TrimSuffix(report.Fold(a.out, text, indent, indent+"  "), "\n")+" ")
}

// warn says that an answer is odd, which it may be all the same.
func (a *Asker) warn(list []warning.Warning) {
	for _, text := range report.Sentences(list) {
		fmt.Fprint(a.out, report.Fold(a.out, "doubt: "+text, "   ", "   "))
	}
}

// ended tells what is left of a file of answers after the last question.
func (a *Asker) ended() error {
	for a.file != "" && a.in.Scan() {
		a.line++
		if text := strings.TrimSpace(a.in.Text()); text != "" {
			return fmt.Errorf("%s:%d: nothing is asked any more where it says %s\n   count the empty lines: each kind of statement ends with one", a.file, a.line, text)
		}
	}
	return a.unread()
}

// unread is why the answers cannot be read on, nil at their end.
func (a *Asker) unread() error {
	err := a.in.Err()
	if errors.Is(err, bufio.ErrTooLong) {
		return fmt.Errorf("line %d is longer than any answer\n   write one answer a line", a.line+1)
	}
	return err
}

// Yes asks for a yes or a no.
func (a *Asker) Yes(words string) (bool, error) {
	answer, err := a.ask(question{words: words, example: "yes", enter: "no", check: func(text string) (string, error) {
		switch strings.ToLower(text) {
		case "y", "yes":
			return "yes", nil
		case "n", "no":
			return "", nil
		}
		return "", errors.New("write yes or no")
	}}, false)
	return answer == "yes", err
}
