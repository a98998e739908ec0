package weighing

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
)

// Word is the verdict in a word.
type Word string

// The verdicts.
const (
	Dry        Word = "dry"         // too little resin
	OnTarget   Word = "on-target"   // within the band
	Rich       Word = "rich"        // too much resin
	CannotTell Word = "cannot-tell" // the uncertainty is wider than the band
)

// A Verdict holds the fibre fraction by mass against the target and its band.
// It is about resin, never about strength.
type Verdict struct {
	Word         Word
	Target, Band quantity.Fraction // by mass
	// WeighBetter is the input that adds most to the uncertainty.
	WeighBetter string
	Text        string // in plain words
	Cost        string // grams and millimetres off the target; empty if not known
}

// judge holds the result against the target:
//
//	dry or rich     the whole of w ± 2u lies beyond the band
//	cannot tell     else if 2u is more than the band, or if routes that
//	                disagree would be judged differently
//	else            by w alone: the band's edges are shared risk
func (r *Result) judge() {
	m := r.model
	if m.target.Value == 0 {
		return
	}
	aim := m.targetByMass(m.values)
	v := &Verdict{Target: quantity.Fraction(aim), Band: quantity.Fraction(m.band), Cost: r.cost()}
	w, u := float64(r.ByMass.Value), float64(r.ByMass.U)
	if len(r.ByMass.Shares) > 0 {
		v.WeighBetter = r.ByMass.Shares[0].Name
	}
	said := fmt.Sprintf("%s ± %s fibre by mass against %s ± %s", percent(w), percent(2*u), percent(aim), percent(m.band))
	switch {
	case r.divided(aim):
		v.Word = CannotTell
		v.Text = "cannot tell: " + said + ", but ways to the fibre fraction disagree and would be judged differently"
		if len(r.Suspects) > 0 {
			v.WeighBetter = r.Suspects[0].Input
		}
		v.Text += "; " + v.mend()
	case 2*u > m.band && w-2*u <= aim+m.band && w+2*u >= aim-m.band:
		v.Word = CannotTell
		v.Text = "cannot tell: " + said + "; the doubt is wider than the band: " + v.mend()
	default:
		v.Word = m.word(w, aim)
		v.Text = phrases[v.Word] + ": " + said
	}
	r.Verdict = v
}

var phrases = map[Word]string{Dry: "dry", OnTarget: "on target", Rich: "rich"}

func (v *Verdict) mend() string {
	if IsDisagreement(v.WeighBetter) {
		return "find out which of the ways to the fibre is wrong"
	}
	return "weigh or measure " + v.WeighBetter + " better"
}

// word judges a fibre fraction by mass without its doubt.
func (m *model) word(w, aim float64) Word {
	switch {
	case w > aim+m.band:
		return Dry
	case w < aim-m.band:
		return Rich
	}
	return OnTarget
}

// divided tells whether routes disagree in the fibre fraction so that their
// verdicts differ.
func (r *Result) divided(aim float64) bool {
	words := map[Route]Word{}
	for _, route := range r.Routes {
		if route.ByMass != nil {
			words[route.Route] = r.model.word(float64(route.ByMass.Value), aim)
		}
	}
	for _, d := range r.Disagreements {
		if d.B != "" && words[d.A] != words[d.B] {
			return true
		}
	}
	return false
}

// cost is what being off the target comes to, with its expanded uncertainty.
func (r *Result) cost() string {
	texts := []string{}
	if s := r.Surplus; s != nil {
		texts = append(texts, offBy(s.Value.In("g"), s.U.In("g"), 1, " g of resin too ", "much", "little"))
	}
	if w := r.Thicker; w != nil {
		texts = append(texts, "a wall "+offBy(w.Value.In("mm"), w.U.In("mm"), 2, " mm ", "thicker than at the target", "thinner than at the target"))
	}
	return strings.Join(texts, ", ")
}

// offBy writes a value with its expanded uncertainty to the digits given, in whole
// units where it is uncertain by ten of them, and to more digits where they would
// show no uncertainty at all.
func offBy(value, u float64, digits int, unit, above, below string) string {
	if 2*u >= 10 {
		digits = 0
	}
	for u > 0 && digits < 4 && 2*u*math.Pow10(digits) < 0.5 {
		digits++
	}
	way := above
	if value < 0 {
		way = below
	}
	return fmt.Sprintf("%.*f ± %.*f", digits, math.Abs(value), digits, 2*u) + unit + way
}
