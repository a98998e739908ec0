package interview

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/catalogue"
	"potlife/resins/document"
	"potlife/resins/fit"
)

// A Resin is what was answered.
type Resin struct {
	Name       string
	like       string
	parts      string // the line of the mix; empty: as the nearest system
	statements []string

	// Warnings are those about what was answered, told as soon as they arose.
	Warnings []warning.Warning
}

// Statements is how many figures were given.
func (r *Resin) Statements() int { return len(r.statements) }

// File is the statements file.
func (r *Resin) File() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "# What is known of %s, as potlife resins new asked for it.\n", r.Name)
	fmt.Fprintf(&b, "name: %s\nlike: %s\n%sstatements:\n", r.Name, r.like, r.parts)
	for _, s := range r.statements {
		fmt.Fprintf(&b, "  - %s\n", s)
	}
	return []byte(b.String())
}

// ErrNothing tells that no figure was given.
var ErrNothing = errors.New("no figure was given, so that nothing is written\n   a pot life from the label is the one to begin with")

// Ask asks for everything; named is called with the name as soon as it is known. The error is
// that of named, [ErrEnd] or [ErrNothing].
func (a *Asker) Ask(named func(name string) error) (resin *Resin, err error) {
	defer func() {
		if err != nil { // it is told on a line of its own, and answers from a pipe end none
			fmt.Fprintln(a.out)
		}
	}()
	r := &Resin{}
	if r.Name, err = a.ask(question{words: "Name of the resin", example: "club-epoxy-medium", check: checkName}, false); err != nil {
		return nil, err
	}
	a.refused = 0
	if err := named(r.Name); err != nil {
		return nil, err
	}
	systems := catalogue.Systems()
	if err := a.tellSystems(systems); err != nil {
		return nil, err
	}
	if r.like, err = a.ask(question{words: "Nearest of them", example: "epoxy-ipda", check: func(text string) (string, error) {
		if !slices.Contains(systems, text) {
			return "", fmt.Errorf("no built-in system is called %s\nwrite one of %s", text, strings.Join(systems, ", "))
		}
		return text, nil
	}}, false); err != nil {
		return nil, err
	}
	a.refused = 0
	if err := a.mix(r); err != nil {
		return nil, err
	}
	for i := range kinds {
		if err := a.statementsOf(&kinds[i], r); err != nil {
			return nil, err
		}
	}
	if len(r.statements) == 0 {
		return nil, ErrNothing
	}
	return r, a.ended()
}

// tellSystems says what each built-in system is.
func (a *Asker) tellSystems(systems []string) error {
	fmt.Fprint(a.out, report.Fold(a.out, "The built-in systems, of which potlife resins list tells more:", "", "  "))
	for _, name := range systems {
		system, err := resins.Load(name)
		if err != nil {
			return err
		}
		fmt.Fprint(a.out, report.Fold(a.out, name+": "+system.Description, "  ", "      "))
	}
	return nil
}

var nameForm = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_-]*$`)

func checkName(text string) (string, error) {
	if !nameForm.MatchString(text) {
		return "", errors.New("a name has no blanks and begins with a letter\nwrite letters, digits and hyphens")
	}
	return text, nil
}

// mix asks for the mix ratio; densities left out are those of the nearest system.
func (a *Asker) mix(r *Resin) error {
	near, err := resins.Load(r.like)
	if err != nil {
		return err
	}
	hardener, err := a.ask(question{
		words: "Hardener to 100 g of resin", example: "28 g", enter: fmt.Sprintf("%.3g g, as %s", near.Mix.HardenerByMass(), r.like),
		check: quantityOf[quantity.Mass],
	}, false)
	if err != nil || hardener == "" {
		return err
	}
	grams, err := quantity.Parse[quantity.Mass](hardener)
	if err != nil {
		return err
	}
	density := func(words string, usual quantity.Density) (string, error) {
		text, err := a.ask(question{words: words, example: "1.13 g/cm³", enter: fmt.Sprint(usual), check: quantityOf[quantity.Density]}, false)
		if text == "" {
			text = fmt.Sprint(usual)
		}
		return text, err
	}
	resin, err := density("Density of the resin", near.Mix.Resin.Density)
	if err != nil {
		return err
	}
	hard, err := density("Density of the hardener", near.Mix.Hardener.Density)
	if err != nil {
		return err
	}
	line := fmt.Sprintf("parts: {resin: {by_mass: 100, density: %s}, hardener: {by_mass: %g, density: %s}}\n", resin, grams.In("g"), hard)
	if faults := faultsOf(line + "statements:\n  - viscosity: {value: 650 mPa·s, at: 25 °C}\n"); faults != "" {
		if err := a.tell(faults); err != nil {
			return err
		}
		return a.mix(r)
	}
	r.parts = line
	mix := resins.Mix{Resin: resins.Part{ByMass: 100}, Hardener: resins.Part{ByMass: grams.In("g")}}
	odd := fit.RatioWarnings(mix, false, near)
	r.Warnings = append(r.Warnings, odd...)
	a.warn(odd)
	return nil
}

// statementsOf asks for statements of a kind until none is left.
func (a *Asker) statementsOf(k *kind, r *Resin) error {
	for {
		a.refused = 0
		if len(r.statements) >= mostStatements {
			return fmt.Errorf("%d statements were given, the most that are asked for\n   write more into the file of statements by hand", mostStatements)
		}
		line, err := a.statement(k)
		if err != nil || line == "" {
			return err
		}
		r.statements = append(r.statements, line)
		if k.once {
			return nil
		}
	}
}

// mostStatements ends an interview with a program that always has one more.
const mostStatements = 1000

// statement asks until there is a sound one, and returns its line; empty where there is none.
func (a *Asker) statement(k *kind) (string, error) {
	for {
		first, err := a.ask(k.questions[0], false)
		if err != nil || first == "" {
			return "", err
		}
		answers := []string{first}
		for _, q := range k.questions[1:] {
			answer, err := a.ask(q, true)
			if err != nil {
				return "", err
			}
			answers = append(answers, answer)
		}
		if slices.Contains(answers, drop) {
			continue
		}
		line := k.line(answers)
		if faults := faultsOf("statements:\n  - " + line + "\n"); faults != "" {
			if err := a.tell(faults); err != nil {
				return "", err
			}
			continue
		}
		return line, nil
	}
}

// faultsOf reads the lines as a statements file does and tells what is wrong with them.
func faultsOf(lines string) string {
	_, err := fit.Read("", []byte("name: x\nlike: epoxy-ipda\n"+lines))
	var faults *document.Faults
	if !errors.As(err, &faults) {
		return ""
	}
	var told []string
	for _, f := range faults.List {
		told = append(told, f.Problem, f.Mend)
	}
	return strings.Join(told, "\n")
}

// quantityOf writes a quantity as a file has it.
func quantityOf[Q quantity.Quantity](text string) (string, error) {
	q, err := quantity.Parse[Q](text)
	if err != nil {
		return "", err
	}
	return fmt.Sprint(q), nil
}
