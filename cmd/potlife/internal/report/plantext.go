package report

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

func number(n int) string { return strconv.Itoa(n) }

// Text writes the plan for people: the verdict, the pots, the layers, totals,
// what binds, what helps, warnings, cautions.
func (p *Plan) Text(w io.Writer) error { return p.text(w, func() {}) }

// text writes the plan, with more to be said after the totals.
func (p *Plan) text(w io.Writer, more func()) error {
	say(w, p.verdict()+p.misfitWords(), "", "")
	if len(p.Pots) > 0 {
		if p.Feasible {
			fmt.Fprintln(w, "\nPots")
		} else {
			fmt.Fprintln(w, "\nPots of the best plan found, not to be followed")
		}
		if err := p.potTable().write(w); err != nil {
			return err
		}
		say(w, p.potLegend(), "  ", "  ")
	}
	fmt.Fprintln(w, "\nLayers")
	if err := p.layerTable().write(w); err != nil {
		return err
	}
	if p.abridged() {
		say(w, p.abridgedWords(), "  ", "  ")
	}
	if p.planned() {
		say(w, "resin g: carried off the bath, before any is wiped off; mPa·s: the likely bath as the layer ends", "  ", "  ")
	}
	section(w, "Totals", p.totalLines())
	more()
	section(w, "What binds", p.bindLines())
	section(w, "What would help", p.helpLines())
	section(w, "Closed patterns nearby", p.neighbourLines())
	section(w, "Doubts", p.Warnings)
	section(w, "Take care", p.Cautions)
	return nil
}

// planned tells whether there is a plan, which may do without pots.
func (p *Plan) planned() bool { return len(p.Layers) > 0 && p.Layers[0].Start != nil }

func (p *Plan) verdict() string {
	if p.Feasible {
		return fmt.Sprintf("%s: %s and %s will do, from %s to %s. %s no unplanned change.",
			p.Name, plural(p.Totals.Pots, "pot"), plural(p.Totals.Changes, "change")+p.gelledWords(),
			clock(p.Start, p.Start), clock(p.End, p.Start), shareOfBaths(p.ChanceNoChange))
	}
	return fmt.Sprintf("%s: there is no plan that keeps every limit and the reserve. %s", p.Name, p.breakWords())
}

// misfitWords add to the verdict that it rests on a label which is hardly of this system.
func (p *Plan) misfitWords() string {
	if p.misfit == "" {
		return ""
	}
	return " But " + p.misfit
}

// gelledWords add to the verdict what a crew would not want to find out at the
// end of the page.
func (p *Plan) gelledWords() string {
	if p.Totals.Gelled == 0 {
		return ""
	}
	return ", with " + plural(p.Totals.Gelled, "layer") + " laid on a gelled one,"
}

// ChartTitle is the name of the job and, where that is not on the chart, what
// binds its plan.
func (p *Plan) ChartTitle() string {
	if p.Binds == nil || p.Binds.EndsBy != string(vessel.BathTemperature) {
		return p.Name
	}
	return p.Name + " (what binds is its temperature, not shown)"
}

// shareOfBaths rounds a chance down and never to certainty.
func shareOfBaths(chance float64) string {
	if chance > 1-1e-9 {
		return "Every bath tried, fast or slow, thick or thin, needs"
	}
	return fmt.Sprintf("Of 100 baths like this one, %.0f need", math.Floor(100*chance+1e-9))
}

func plural(n int, what string) string {
	switch n {
	case 0:
		return "no " + what
	case 1:
		return "1 " + what
	}
	return number(n) + " " + what + "s"
}

func deref(x *float64) float64 {
	if x == nil {
		return 0
	}
	return *x
}

// decimals is how many decimals a weight in whole steps of a scale has, three
// at most.
func decimals(grams float64) int {
	for n := range 3 {
		if text := strconv.FormatFloat(grams, 'f', n, 64); near(text, grams) {
			return n
		}
	}
	return 3
}

func near(text string, x float64) bool {
	y, err := strconv.ParseFloat(text, 64)
	return err == nil && y-x < 1e-6 && x-y < 1e-6
}

func (p *Plan) totalLines() []string {
	t := p.Totals
	kg := func(g float64) string { return mass(quantity.Mass(g / 1000)) }
	lines := []string{fmt.Sprintf("fibre %s, resin on the part %s", kg(t.FibreG), kg(t.ResinPartG))}
	if p.planned() {
		lines = append(lines, fmt.Sprintf("mixed %s in %s, wasted %s (cups, bath, dumped, wiped off)", kg(t.MixedG), plural(t.Pots, "pot"), kg(t.WasteG)))
	}
	if t.Gelled > 0 {
		lines = append(lines, fmt.Sprintf("%s laid on a gelled one: abrade and clean before winding on", plural(t.Gelled, "layer")))
	}
	return lines
}

func (p *Plan) bindLines() []string {
	b := p.Binds
	if b == nil || b.LifeLeftS == nil {
		return nil
	}
	if vessel.Limit(b.EndsBy) == vessel.NoLimit {
		return []string{"Nothing: at any moment the tow may stop for two days, and the bath is still good."}
	}
	return []string{fmt.Sprintf("At %s, least is to spare: should the tow stop then, %s are left until %s, and the reserve asks %s of them.",
		clock(b.At, p.Start), roundDown(quantity.Time(*b.LifeLeftS)), p.Limits.words(vessel.Limit(b.EndsBy)), minutes(quantity.Time(b.ReserveS)))}
}

func (p *Plan) helpLines() []string {
	var lines []string
	if !p.Feasible && len(p.Helps) == 0 && p.contradicted {
		return []string{"two figures of the job do not go together, see Doubts: mend them first"}
	}
	if !p.Feasible && len(p.Helps) == 0 {
		return []string{"none of these alone is enough: cooler or warmer resin, a cooler or warmer room, smaller pots, a hardener half as fast, a faster tow, stops inside the layers; combine them, or split the winding over two days"}
	}
	for _, h := range p.Helps {
		gain := quantity.Time(h.GainS)
		line := fmt.Sprintf("%s: %s more to spare", h.What, roundDown(gain))
		if gain < 0 {
			line = fmt.Sprintf("%s: %s less to spare", h.What, minutes(-gain))
		}
		switch {
		case h.Part && !p.Feasible:
			line = h.What + ": gets past the layer that breaks it; plan it whole to see the rest"
		case h.Part:
			line += " in the part looked at"
		case h.MakesFeasible:
			line = fmt.Sprintf("%s: makes a plan possible, with %s to spare, %s and %s", h.What, roundDown(gain), plural(h.Pots, "pot"), plural(h.Changes, "change"))
		case h.Changes < 0:
			line += ", " + plural(-h.Changes, "change") + " fewer"
		}
		lines = append(lines, line)
	}
	return lines
}
