package report

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/warning"
	"potlife/schedule/weighing"
)

// sayWeighing tells the warnings of package weighing, and what it assumed.
func sayWeighing(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case weighing.Disagreement:
		return disagreementWords(w), true
	case weighing.OneInputExplains:
		var best []string
		for _, s := range w.Best {
			best = append(best, suspectWords(s))
		}
		text := "one wrong input would explain this, best of all " + strings.Join(best, ", or ")
		if w.Others > 0 {
			text += "; others could: a third route would tell"
		}
		return text, true
	case weighing.NoInputExplains:
		return "no single input explains this: weigh again, one after another", true
	case weighing.VoidsBelowZero:
		return fmt.Sprintf("the voids come out at %s, less than none: within doubt there are few; beyond it a reading or a density is wrong", percent(float64(w.Voids))), true
	case weighing.MixedNotWeighed:
		return "without the resin mixed nothing can be told of what was lost", true
	case weighing.VoidsNeedDensities:
		return "voids need the densities of fibre and cured resin", true
	case weighing.VolumeWithoutPart:
		return "the volume says nothing without the part's weight", true
	case weighing.WallWithoutVoids:
		return "the wall is taken to have no voids: voids would read as resin", true
	case weighing.FirstOrderNotEnough:
		return fmt.Sprintf("first order is not enough for the %s: drawing %d times makes its uncertainty %.3g, not %.3g", w.Of, w.Draws, w.Drawn, w.FirstOrder), true
	case weighing.ScaleAssumed:
		return fmt.Sprintf("the scale is taken to show steps of %v (our choice)", w.Step), true
	case weighing.BandAssumed:
		return fmt.Sprintf("the band is taken as ±%.3g percentage points by mass (our choice)", 100*float64(w.Band)), true
	case weighing.TexToleranceAssumed:
		return fmt.Sprintf("tex is taken within ±%v (common practice, from memory)", w.Within), true
	case weighing.TowToleranceAssumed:
		return fmt.Sprintf("the tow's length is taken within ±%v (our choice)", w.Within), true
	case weighing.FibreDensityToleranceAssumed:
		return fmt.Sprintf("the fibre's density is taken within ±%v (our choice)", w.Within), true
	case weighing.ResinDensityToleranceAssumed:
		return fmt.Sprintf("the cured resin's density is taken within ±%v (our choice)", w.Within), true
	case weighing.WaterTemperatureAssumed:
		return fmt.Sprintf("the water is taken at %v ± %v", w.Water, w.Within), true
	case weighing.TrimmingsAssumedAlike:
		return "the trimmings are taken to be made of fibre and resin as the part is", true
	}
	return "", false
}

func disagreementWords(d weighing.Disagreement) string {
	unit := figureIn[d.Of]
	if d.B == "" {
		return fmt.Sprintf("the %s by %s is %s, less than none beyond its expanded uncertainty of %s", d.Of, d.A, unit(d.Difference), unit(2*d.U))
	}
	return fmt.Sprintf("%s and %s disagree in the %s by %s, beyond the expanded uncertainty of that difference, %s", d.A, d.B, d.Of, unit(math.Abs(d.Difference)), unit(2*d.U))
}

// figureIn prints a figure that routes may disagree in, from SI.
var figureIn = map[weighing.Figure]func(si float64) string{
	weighing.FibreMass:      gramsOf,
	weighing.Unaccounted:    gramsOf,
	weighing.ByMassFraction: percent,
	weighing.VoidShare:      percent,
	weighing.PieceDensity:   densityOf,
}

func gramsOf(kg float64) string     { return fmt.Sprintf("%.4g g", 1000*kg) }
func densityOf(kgM3 float64) string { return fmt.Sprintf("%.4g g/cm³", kgM3/1000) }

// percent prints a share with as many digits as it takes not to show 0.
func percent(share float64) string {
	return signed(100*share, digitsOf(100*math.Abs(share), 1, mostDigits, shows)) + " %"
}

// percentWithin prints a share and its uncertainty, both to a digit that the latter has.
func percentWithin(share, u float64) string {
	digits := digitsOf(100*u, 1, mostDigits, shows)
	return signed(100*share, digits) + " % ± " + uncertain(100*u, digits) + " %"
}

// suspectWords names an input and how far it would be off.
func suspectWords(s weighing.Suspect) (text string) {
	defer shown("suspect", &text)
	way := "high"
	if s.Change > 0 {
		way = "low"
	}
	times := fmt.Sprintf("%.3g", s.InU)
	if s.InU >= 1000 {
		times = "over 1000"
	}
	return fmt.Sprintf("%s, %s too %s (%s times its own uncertainty)", s.Input, inputIn(s.Of, math.Abs(s.Change)), way, times)
}

// inputIn prints a change of an input, from SI.
func inputIn(of weighing.Dimension, si float64) string {
	switch of {
	case weighing.Length:
		return fmt.Sprintf("%.4g m", si)
	case weighing.LinearDensity:
		return fmt.Sprintf("%.3g tex", si*1e6)
	case weighing.Density:
		return densityOf(si)
	case weighing.Volume:
		return fmt.Sprintf("%.4g mL", si*1e6)
	case weighing.ArealWeight:
		return fmt.Sprintf("%.4g g/m²", si*1e3)
	case weighing.WallThickness:
		return fmt.Sprintf("%.3g mm", si*1000)
	case weighing.TemperatureDifference:
		return fmt.Sprintf("%.3g K", si)
	}
	return gramsOf(si)
}
