package report

import (
	"math"
	"strings"

	"potlife/schedule/weighing"
)

// verdictWords are the verdicts on a weighed part.
var verdictWords = map[weighing.Word]string{
	weighing.Dry: "dry", weighing.OnTarget: "on target", weighing.Rich: "rich", weighing.CannotTell: "cannot tell",
}

// verdictReason is what a verdict stands on.
func verdictReason(r *weighing.Result) (text string) {
	defer shown("reason", &text)
	v := r.Verdict
	text = percentWithin(float64(r.ByMass.Value), 2*float64(r.ByMass.U)) + " fibre by mass against " + percentWithin(float64(v.Target), float64(v.Band))
	switch {
	case v.Divided:
		text += ", but ways to the fibre fraction disagree and would be judged differently; " + verdictHelp(v)
	case v.Word == weighing.CannotTell:
		text += "; the doubt is wider than the band: " + verdictHelp(v)
	}
	return text
}

// verdictHelp is what would give a verdict.
func verdictHelp(v *weighing.Verdict) string {
	if weighing.IsDisagreement(v.WeighBetter) {
		return "find out which of the ways to the fibre is wrong"
	}
	return "weigh or measure " + v.WeighBetter + " better"
}

// verdictCost is what being off the target comes to, with its expanded uncertainty; empty
// where it is not known.
func verdictCost(r *weighing.Result) (text string) {
	defer shown("cost", &text)
	var texts []string
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
	digits = digitsOf(2*u, digits, mostDigits+1, shows)
	way := above
	if value < 0 {
		way = below
	}
	return signed(math.Abs(value), digits) + " ± " + uncertain(2*u, digits) + unit + way
}
