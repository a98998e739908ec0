package weighing

import "potlife/kinetics/quantity"

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
	// Divided: it cannot be told since routes disagree and would be judged differently; else
	// because the uncertainty is wider than the band.
	Divided bool
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
	v := &Verdict{Target: quantity.Fraction(aim), Band: quantity.Fraction(m.band)}
	w, u := float64(r.ByMass.Value), float64(r.ByMass.U)
	if len(r.ByMass.Shares) > 0 {
		v.WeighBetter = r.ByMass.Shares[0].Name
	}
	switch {
	case r.divided(aim):
		v.Word, v.Divided = CannotTell, true
		if len(r.Suspects) > 0 {
			v.WeighBetter = r.Suspects[0].Input
		}
	case 2*u > m.band && w-2*u <= aim+m.band && w+2*u >= aim-m.band:
		v.Word = CannotTell
	default:
		v.Word = m.word(w, aim)
	}
	r.Verdict = v
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
