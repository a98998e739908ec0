package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/resins/fit"
)

// Text writes the fit for people: what was said, what is said of it, and what the record is
// worth.
func (r *Fit) Text(w io.Writer) error {
	say(w, fmt.Sprintf("%s: %s, starting from %s.", r.Name, plural(len(r.Statements), "statement"), r.Like), "", "  ")
	fmt.Fprintln(w)
	for i, s := range r.Statements {
		say(w, fmt.Sprintf("%d  %s", i+1, s.Statement), "", "   ")
	}
	fmt.Fprintln(w, "\nWhat is said")
	if err := r.statementTable().write(w); err != nil {
		return err
	}
	say(w, r.statementNote(), "  ", "  ")
	unsafe, contradictions, others := r.parted()
	section(w, "On the unsafe side", unsafe)
	section(w, "Contradictions", contradictions)
	fmt.Fprintln(w, "\nWhat moved")
	if err := r.parameterTable().write(w); err != nil {
		return err
	}
	say(w, "±: 9 times in 10", "  ", "  ")
	if len(r.Untold) > 0 {
		fmt.Fprintln(w)
		say(w, fmt.Sprintf("The statements cannot tell, so that it stays near %s: %s.", r.Like, strings.Join(r.Untold, ", ")), "", "  ")
	}
	fmt.Fprintln(w)
	say(w, fmt.Sprintf("Good to a factor of %s in time (before: %.3g) and of %s in viscosity (%.3g), 9 times in 10.",
		factor(r.Spread.Time), r.SpreadBefore.Time, factor(r.Spread.Viscosity), r.SpreadBefore.Viscosity), "", "  ")
	fmt.Fprintln(w, "\nLife to gel")
	if err := r.lifeTable().write(w); err != nil {
		return err
	}
	say(w, "left to stand in the usual cup, as deep as wide, in still air; resin as warm as the room; likely, and the factor within which it lies 9 times in 10", "  ", "  ")
	fmt.Fprintln(w)
	say(w, r.nextLine(), "", "  ")
	section(w, "Doubts", others)
	return nil
}

func (r *Fit) statementTable() *table {
	t := &table{head: []string{"", "said", shorten(r.Like, 16), "the others", "σ", "now"}, left: []bool{true}}
	for i := range r.Statements {
		s := &r.Statements[i]
		others := "-"
		if s.Surprise != nil && len(r.Statements) > 1 {
			others = fmt.Sprintf("%+.1f", *s.Surprise)
		}
		if s.Kind == "cup_log" {
			others = strings.TrimPrefix(others, "+") // of many readings, without a direction
		}
		without := s.words(s.Without)
		if len(r.Statements) == 1 {
			without = "-"
		}
		t.add(fmt.Sprintf("%d %s", i+1, kindWords[s.Kind]), s.words(s.Said), s.words(s.Before), without, others, s.words(s.Says))
	}
	return t
}

var kindWords = map[string]string{
	"pot_life": "pot life", "viscosity": "viscosity", "film_gel": "film gels", "conversion": "degree of cure",
	"glass": "glass", "heat": "heat", "cup_log": "cup log",
}

// words is a figure of a statement.
func (s *FitStatement) words(x *float64) string {
	if x == nil && s.rises {
		return "later"
	}
	if x == nil {
		return "never"
	}
	switch s.measures {
	case "time":
		return minutes(quantity.Time(*x))
	case "viscosity":
		return viscosity(quantity.Viscosity(*x)) + " mPa·s"
	case "conversion":
		return fmt.Sprintf("%.2f", *x)
	case "temperature":
		return quantity.Format(quantity.Temperature(*x), "°C", 1)
	}
	return quantity.Format(quantity.SpecificEnergy(*x), "J/g", 0)
}

func (r *Fit) statementNote() string {
	note := "now: the new record"
	if len(r.Statements) > 1 {
		note = "the others: a record made of all other statements; σ: how far that is off, in standard deviations of both; " + note
	}
	if slices.ContainsFunc(r.Statements, func(s FitStatement) bool { return s.rises }) {
		note += "; a cup log by the time at which half of its rise is reached, later where that is after its end"
	}
	return note
}

func (r *Fit) parameterTable() *table {
	t := &table{head: []string{"", "by", "± before", "± now", "told"}, left: []bool{true, false, false, false, true}}
	for _, p := range r.Parameters {
		told := "yes"
		if !p.Told {
			told = "no"
		}
		t.add(shorten(p.Name, 36), p.change(p.Value), p.width(p.PriorSigma), p.width(p.Sigma), told)
	}
	return t
}

// change is a value of the parameter.
func (p *FitParameter) change(value float64) string {
	switch p.Unit {
	case "ln":
		return fmt.Sprintf("× %.2f", math.Exp(value))
	case "J/mol":
		return fmt.Sprintf("%+.1f kJ/mol", value/1e3)
	}
	return fmt.Sprintf("%+.1f K", value)
}

// width is the half width of 9 in 10.
func (p *FitParameter) width(sigma float64) string {
	ninety := sigma / ensemble.Sigma(math.E)
	switch p.Unit {
	case "ln":
		return "× " + factor(math.Exp(ninety))
	case "J/mol":
		return fmt.Sprintf("%.1f kJ/mol", ninety/1e3)
	}
	return fmt.Sprintf("%.1f K", ninety)
}

// factor prints a factor, rounded up: it must not be promised smaller than it is.
func factor(f float64) string { return fmt.Sprintf("%.2f", math.Ceil(f*100-1e-6)/100) }

func (r *Fit) lifeTable() *table {
	head := []string{"room"}
	for _, m := range toldMasses {
		for _, l := range r.Lives {
			if l.MassKg == float64(m) {
				head = append(head, fmt.Sprintf("%s in %.0f mm", mass(m), 1e3*l.CupM), "within")
				break
			}
		}
	}
	t := &table{head: head}
	for _, room := range toldRooms {
		row := []string{quantity.Format(room, "°C", 0)}
		for _, l := range r.Lives {
			if l.RoomC == room.Celsius() {
				row = append(row, never(l.LifeS), "× "+factor(l.Spread))
			}
		}
		t.add(row...)
	}
	return t
}

func (r *Fit) nextLine() string {
	if r.File == "" {
		return "Nothing is written yet: -o my-resin.yaml writes the record."
	}
	return fmt.Sprintf("Written to %s; a job takes it with the line resin: %s", r.File, asPath(r.File))
}

// asPath is a file's name as a job takes it for a path and not for a built-in system.
func asPath(file string) string {
	if strings.ContainsAny(file, `/\`) {
		return file
	}
	return "./" + file
}

// parted are the warnings by their sections.
func (r *Fit) parted() (unsafe, contradictions, others []string) {
	for i, w := range r.given {
		text := r.Warnings[i]
		switch w.(type) {
		case fit.LongerThanStated:
			unsafe = append(unsafe, text)
		case fit.Contradiction, fit.MoreContradictions:
			contradictions = append(contradictions, text)
		default:
			others = append(others, text)
		}
	}
	return unsafe, contradictions, others
}
