package report

import (
	"fmt"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/fit"
	"potlife/schedule/session"
)

// TestSayFit holds the sentences of labels, statements and logs to their figures as people
// read them.
func TestSayFit(t *testing.T) {
	label := fit.Statement{Kind: fit.PotLife, Time: 2400, Mass: 0.15, At: quantity.Celsius(25), Assumed: true, EndText: "gel"}
	film := fit.Statement{Kind: fit.FilmGel, Time: 9 * 3600, At: quantity.Celsius(20)}
	late := fit.Miss{Of: 0, Against: 1, Sigmas: 2.04, Unsafe: true, Statement: label, Other: film, System: "epoxy-ipda", Said: 2400, Says: 3600}
	slow := fit.Miss{Of: 1, Against: -1, Sigmas: -2.04, Statement: film, System: "epoxy-ipda", Said: 9 * 3600, Says: 6 * 3600}
	thin := fit.Miss{Of: 1, Against: 0, Sigmas: 2.04, Statement: fit.Statement{Kind: fit.Viscosity, Value: 1.2, At: quantity.Celsius(25)}, Other: film}
	for _, c := range []struct {
		w    warning.Warning
		want string
	}{
		{resins.Generic{Record: "epoxy-ipda", SpreadTime: 1.6}, "epoxy-ipda is generic data, good to a factor of 1.6 in time: give the label's pot life under datasheet, or do a cup test"},
		{fit.LabelWithoutViscosity{Typical: 0.6, Spread: 1.3}, "the label gives no viscosity: 600 mPa·s at 25 °C is typical, good to a factor of 1.3; add viscosity: {value: …, at: 25 °C}"},
		{
			fit.LabelWithoutContainer{Cup: 0.0486, Mass: 0.1, Spread: 1.35, Known: 1.2},
			"the label names no container: a cup as deep as wide is assumed (49 mm for 100 g), spread 1.35 instead of 1.2; write in: {cup: 70 mm} once you know it",
		},
		{
			fit.FarPotLife{Said: 2700, Alone: 6900, Factor: 2.613, Claims: 1.6},
			"the label's pot life is 45 min, the record alone gives 115 min: a factor of 2.61 in speed where the record claims 1.6; is it the right system?",
		},
		{
			fit.FarPotLife{Said: 1800, Never: true, Factor: 3.5, Claims: 1.6},
			"the label's pot life is 30 min, the record alone gives no end in 7 days: a factor of 3.5 in speed where the record claims 1.6; is it the right system?",
		},
		{
			fit.FarViscosity{Said: 0.9, Alone: 0.6, At: quantity.Celsius(25), Factor: 1.5, Claims: 1.3},
			"the label's viscosity is 900 mPa·s at 25 °C, the record alone gives 600 mPa·s: a factor of 1.5 where the record claims 1.3; is it the right system?",
		},
		{session.AsRecorded{Sentence: "the label names no container"}, "the label names no container"},
		{session.AsRecorded{Kept: "label-upside-down", Values: `{"by":2}`}, `of the label, by another version of potlife: label-upside-down {"by":2}`},
		{fit.ContainerAssumed{Number: 1, Statement: label}, "statement 1, pot life 40 min for 150 g at 25 °C, no container named, to gel: a cup as deep as wide is assumed; write in: {cup: 60 mm} once you know it"},
		{
			fit.OutsideRange{Number: 2, Statement: film, System: "epoxy-ipda", Valid: resins.Range{From: quantity.Celsius(15), To: quantity.Celsius(80)}},
			"statement 2, a film gels in 9 h at 20 °C: epoxy-ipda claims its law for 15 °C to 80 °C only",
		},
		{fit.UnlikeRatio{System: "epoxy-ipda", Given: 36.1, Usual: 24}, "36.1 g hardener to 100 g resin, where epoxy-ipda takes 24: is it parts by volume, or the figure of another column?"},
		{fit.UnlikeRatio{System: "epoxy-ipda", Given: 1500, Usual: 24}, "1500 g hardener to 100 g resin, where epoxy-ipda takes 24: is it parts by volume, or the figure of another column?"},
		{
			fit.UnlikeRatio{System: "epoxy-ipda", Given: 60, Usual: 24, ByVolume: true},
			"by the volumes given 60 g hardener to 100 g resin, where epoxy-ipda takes 24: are they parts by mass, or the figure of another column?",
		},
		{fit.FarFromSystem{What: fit.MovesRate, Factor: 1234567, System: "epoxy-ipda", Claims: 1.6}, "the rate differs by a factor of 1230000 from epoxy-ipda, which claims 1.6; is it the right system to start from?"},
		{
			fit.LongerThanStated{Miss: late},
			"statement 1, pot life 40 min for 150 g at 25 °C, no container named, to gel: the new record now says 60 min, later than the 40 min stated: that is the unsafe side, trust the 40 min; statement 2, a film gels in 9 h at 20 °C, pulls it there",
		},
		{
			fit.MissedStatement{Miss: slow},
			"statement 2, a film gels in 9 h at 20 °C: the new record now says 6 h 00 min, 2.0 standard deviations of this statement off; epoxy-ipda, from which the fit starts, pulls it there",
		},
		{
			fit.MissedStatement{Miss: thin},
			"statement 2, viscosity 1200 mPa·s at 25 °C: the new record misses it by 2.0 standard deviations of this statement; statement 1, a film gels in 9 h at 20 °C, pulls it there",
		},
		{
			fit.Contradiction{A: 0, B: 1, OfA: label, OfB: film, Sigmas: 8.512},
			"statements 1 and 2 contradict each other by 8.5 standard deviations: pot life 40 min for 150 g at 25 °C, no container named, to gel; a film gels in 9 h at 20 °C",
		},
		{fit.MoreContradictions{Pairs: 2600, Above: 3}, "2600 more pairs of statements contradict each other by more than 3 standard deviations, less than those named"},
		{fit.TooWarmWater{Start: quantity.Celsius(71), Limit: quantity.Celsius(60)}, "above 60 °C a vessel loses more than it does with resin in it; start at 40 to 50 °C"},
		{fit.UnitOfTimes{File: "x.csv", Span: 1800, Unit: 1}, "x.csv: the times span 1800 and are taken for seconds"},
		{fit.UnitOfTimes{File: "x.csv", Span: 30.5, Unit: 60}, "x.csv: the times span 30.5 and are taken for minutes"},
		{fit.ZeroIsMixing{File: "x.csv", First: 180}, "x.csv: the first reading is 3 min after the file's zero, which is taken for the mixing; otherwise write begins: … in cup_log"},
	} {
		if got := sentence(c.w); got != c.want {
			t.Errorf("%s: %s\nwant %s", c.w.Code(), got, c.want)
		}
	}
}

// TestMisfitText: which way the label is off, and by how much.
func TestMisfitText(t *testing.T) {
	const want = "the label is 20 times as %s as the record of this system, which claims 1.6 at most: is it the right system, minutes or hours?"
	for word, m := range map[string]*fit.Misfit{"slow": {TimeFactor: 20, Claims: 1.6}, "fast": {TimeFactor: 0.05, Claims: 1.6}} {
		if got := misfitText(m); got != fmt.Sprintf(want, word) {
			t.Error(got)
		}
	}
	if got := misfitText(nil); got != "" {
		t.Error(got)
	}
}

// TestPartedWarnings: each warning of a fit stands in one section, in the order told.
func TestPartedWarnings(t *testing.T) {
	given := []warning.Warning{
		fit.LongerThanStated{Miss: fit.Miss{Against: -1}}, fit.OpenWater{}, fit.Contradiction{B: 1, Sigmas: 4}, fit.MissedStatement{Miss: fit.Miss{Against: -1}},
	}
	r := Fit{Warned: NewWarned(given...)}
	unsafe, contradictions, others := r.parted()
	if len(unsafe) != 1 || unsafe[0] != r.Warnings[0] || len(contradictions) != 1 || contradictions[0] != r.Warnings[2] ||
		len(others) != 2 || others[0] != r.Warnings[1] || others[1] != r.Warnings[3] {
		t.Errorf("%q, %q, %q", unsafe, contradictions, others)
	}
}

// TestMovesHaveWords: every parameter of a fit is called something.
func TestMovesHaveWords(t *testing.T) {
	for _, m := range []fit.Moves{
		fit.MovesRate, fit.MovesEnergy, fit.MovesViscosity, fit.MovesFlowEnergy, fit.MovesLoss, fit.MovesHeat, fit.MovesShift, fit.MovesCured, fit.MovesFirst,
	} {
		if parameterWords(fit.Parameter{Moves: m}) == "" {
			t.Errorf("%s has no words", m)
		}
	}
	if got := parameterWords(fit.Parameter{Moves: fit.MovesFirst, File: "cup.csv"}); got != "first temperature of cup.csv" {
		t.Error(got)
	}
}
