package report

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/schedule/weighing"
)

// Text writes the answer for people: the verdict, what it stands on, and what is
// open.
func (w *Weigh) Text(out io.Writer) error {
	for _, line := range w.headline() {
		say(out, line, "", "  ")
	}
	fmt.Fprintln(out)
	if err := w.fractionTable().write(out); err != nil {
		return err
	}
	if share := w.better(); share != "" {
		say(out, "± holds 95 times in 100; the doubt of the fibre by mass comes mostly from "+share, "  ", "  ")
	}
	if t := w.resinTable(); t != nil {
		fmt.Fprintln(out, "\nWhere the resin went")
		if err := t.write(out); err != nil {
			return err
		}
		for _, line := range w.lossLines() {
			say(out, line, "  ", "  ")
		}
	}
	if len(w.Routes) > 1 {
		fmt.Fprintln(out, "\nWays to the fibre")
		if err := w.routeTable().write(out); err != nil {
			return err
		}
	}
	section(out, "What does not fit together", w.said(true))
	section(out, "Assumed", w.Assumed)
	section(out, "Doubts", w.said(false))
	if w.Logged != nil {
		fmt.Fprintf(out, "\nlogged e%d: weighed, in %s\n", *w.Logged, *w.Session)
	}
	section(out, "Take care", w.Cautions)
	return nil
}

// fractionTable is what the part is made of.
func (w *Weigh) fractionTable() *table {
	a := w.answer
	t := &table{left: []bool{true, false, true, true}}
	row(t, "fibre by mass", &a.ByMass, hundred, " %", "")
	row(t, "fibre by volume", a.ByVolume, hundred, " %", "voids left out")
	row(t, "voids", a.Voids, hundred, " %", "")
	row(t, "density", a.Density, perCubicCentimetre, " g/cm³", "")
	row(t, "pick-up", a.PickUp, itself, "", "1: resin as at the target")
	row(t, "fibre", a.Fibre, quantity.Mass.In, " g", "in the part as weighed")
	row(t, "resin", a.Resin, quantity.Mass.In, " g", "in the part as weighed")
	return t
}

// resinTable is the balance of the resin, nil where nobody told what was mixed.
func (w *Weigh) resinTable() *table {
	a := w.answer
	if a.Unaccounted == nil {
		return nil
	}
	t := &table{left: []bool{true, false, true}}
	amount := func(name string, g *float64) {
		if g != nil {
			t.add(name, fmt.Sprintf("%.0f g", *g), "")
		}
	}
	amount("mixed", w.MixedG)
	laid := "on the part"
	if a.Input.Trimmings.Given {
		laid += " and its trimmings"
	}
	row(t, laid, a.ResinLaid, quantity.Mass.In, " g")
	amount("left in the bath", w.LeftOverG)
	amount("in cups", w.CupsG)
	amount("in rags", w.RagsG)
	amount("dripped", w.DripsG)
	row(t, "unaccounted for", a.Unaccounted, quantity.Mass.In, " g")
	return t
}

// lossLines say what the job reckons with among what is unaccounted for.
func (w *Weigh) lossLines() []string {
	var lines []string
	for _, loss := range w.Expected {
		lines = append(lines, fmt.Sprintf("the job reckons with %.0f g %s", loss.MassG, loss.What))
	}
	return lines
}

// routeTable lets each way to the fibre speak.
func (w *Weigh) routeTable() *table {
	t := &table{head: []string{"by", "fibre", "", "by mass", ""}, left: []bool{true, false, true, false, true}}
	for _, r := range w.answer.Routes {
		cells := []string{string(r.Route), "", "", "", ""}
		if r.Fibre != nil {
			cells[1], cells[2] = estimated(r.Fibre, quantity.Mass.In, " g")
		}
		if r.ByMass != nil {
			cells[3], cells[4] = estimated(r.ByMass, hundred, " %")
		}
		t.add(cells...)
	}
	return t
}

// row adds an estimate to a table, nothing for none.
func row[T ~float64](t *table, name string, e *weighing.Estimate[T], in func(T, string) float64, unit string, note ...string) {
	if e == nil {
		return
	}
	value, within := estimated(e, in, unit)
	t.add(append([]string{name, value, within}, note...)...)
}

// estimated writes a value with its expanded uncertainty, both to the digit that
// the latter has.
func estimated[T ~float64](e *weighing.Estimate[T], in func(T, string) float64, unit string) (value, within string) {
	name := strings.TrimSpace(unit)
	u := in(2*e.U, name)
	digits := digitsOf(u, leastDigits[unit], mostDigits, 2)
	return signed(in(e.Value, name), digits) + unit, "± " + uncertain(u, digits) + unit
}

// digitsOf are the digits after the point, from least to most, with which the last one of a
// figure counts lowest or more.
func digitsOf(figure float64, least, most int, lowest float64) int {
	for least < most && figure > 0 && figure*math.Pow10(least) < lowest {
		least++
	}
	return least
}

// shows is the least that digitsOf asks of a figure that must not be printed as nothing.
const shows = 0.5

// uncertain writes an uncertainty: one that is too small for its digits is not nothing.
func uncertain(u float64, digits int) string {
	if text := signed(u, digits); !(u > 0) || strings.Trim(text, "0.") != "" {
		return text
	}
	return "under " + signed(math.Pow10(-digits), digits)
}

// mostDigits after the point are written of an uncertainty.
const mostDigits = 3

// leastDigits after the point are written by unit; of the others, none.
var leastDigits = map[string]int{" %": 1, "": 2}

// signed writes a number, without a minus before a zero.
func signed(x float64, digits int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', digits, 64)
	if x < 0 && strings.Trim(text, "0.") != "" {
		return "-" + text
	}
	return text
}

// The units that are no quantity's own.
func hundred(f quantity.Fraction, _ string) float64 { return f.In("%") }
func itself(x float64, _ string) float64            { return x }

func perCubicCentimetre(d quantity.Density, _ string) float64 { return d.In("g/cm³") }
