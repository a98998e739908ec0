package report

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session/scales"
)

// sayScales tells the warnings of package scales, and what it took from the session.
func sayScales(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case scales.LayerInHand:
		return fmt.Sprintf("layer %d is in hand: its fibre is not counted; log done first", w.Layer), true
	case scales.LayersNotDone:
		if w.GivenUp > 0 {
			return fmt.Sprintf("%d of %s are done and layer %d is given up at %s: only so much fibre is counted", w.Done, numbered(w.Layers, "layer"), w.GivenUp, shareWords(w.Share)), true
		}
		return fmt.Sprintf("%d of %s are done: only their fibre is counted", w.Done, numbered(w.Layers, "layer")), true
	case scales.LeftOverNotWeighed:
		what := "what was left in the bath was not weighed"
		if w.Of > 1 {
			what = fmt.Sprintf("what was left in %d of %d baths was not weighed", w.Baths, w.Of)
		}
		return what + ": it is part of the resin unaccounted for", true
	case scales.PartImpossible:
		return fmt.Sprintf("what was weighed of the part cannot be true, and is left out: %s: %s", w.Input, w.Problem), true
	case scales.PartIncomplete:
		return fmt.Sprintf("what was weighed of the part is too little for its fractions: %s is missing", w.Missing), true
	case scales.TowAssumed:
		text := fmt.Sprintf("the tow is %.0f m, what the job winds in %s", float64(w.Tow), numbered(w.Layers, "layer"))
		if w.GivenUp > 0 {
			text += fmt.Sprintf(" and in %s of layer %d", shareWords(w.Share), w.GivenUp)
		}
		return text, true
	case scales.TexAssumed:
		return fmt.Sprintf("tex and tows are the job's: %s of %v", numbered(w.Tows, "tow"), w.Tex), true
	case scales.FibreDensityAssumed:
		return fmt.Sprintf("the fibre's density is the job's, %v", w.Density), true
	case scales.ResinDensityAssumed:
		return fmt.Sprintf("the cured resin is taken as dense as the liquid mix of %s, %v ± %.0f %%: cured it is some 2 to 5 %% denser (common practice, from memory); a cast piece in air and water would tell",
			w.Resin, w.Density, w.Within.In("%")), true
	case scales.PliesAssumed:
		return fmt.Sprintf("the wall has %d plies of %s of fibre, as the job winds them", w.Plies, quantity.Format(w.Ply, "g/m²", 0)), true
	case scales.CupsAssumed:
		return fmt.Sprintf("in cups are the %s that stand mixed", numbered(w.Pots, "pot")), true
	}
	return "", false
}

// numbered is a number of things in figures, 0 too.
func numbered(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// lossWords are where resin goes that the job reckons with.
func lossWords(kind scales.LossKind) string {
	text := map[scales.LossKind]string{scales.LeftInCups: "left in the cups that were poured", scales.WipedOff: "wiped off"}[kind]
	shown("loss", &text)
	return text
}
