package report

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/fit"
	"potlife/schedule/session"
)

// sayFit says the warnings of records, labels, statements, cup logs and cooling tests.
func sayFit(w warning.Warning) (string, bool) {
	for _, say := range []func(warning.Warning) string{sayLabel, sayStatements, sayFitted, sayCooling, sayLog} {
		if text := say(w); text != "" {
			return text, true
		}
	}
	return "", false
}

func sayLabel(w warning.Warning) string {
	const far = "the label's %s is %s, the record alone gives %s: a factor of %s%s where the record claims %s; is it the right system?"
	switch w := w.(type) {
	case resins.Generic:
		return fmt.Sprintf("%s is generic data, good to a factor of %.3g in time: give the label's pot life under datasheet, or do a cup test", w.Record, w.SpreadTime)
	case fit.LabelWithoutViscosity:
		return fmt.Sprintf("the label gives no viscosity: %.0f mPa·s at 25 °C is typical, good to a factor of %s; add viscosity: {value: …, at: 25 °C}",
			1e3*float64(w.Typical), plainFactor(w.Spread))
	case session.AsRecorded:
		if w.Sentence != "" {
			return w.Sentence
		}
		return "of the label, by another version of potlife: " + w.Kept + " " + w.Values
	case fit.LabelWithoutPotLife:
		return "the label gives no pot life: the speed stays generic"
	case fit.LabelWithoutContainer:
		return fmt.Sprintf("the label names no container: a cup as deep as wide is assumed (%.0f mm for %v), spread %s instead of %s; write in: {cup: 70 mm} once you know it",
			w.Cup.In("mm"), w.Mass, plainFactor(w.Spread), plainFactor(w.Known))
	case fit.FarPotLife:
		alone := fmt.Sprintf("%.0f min", w.Alone.In("min"))
		if w.Never {
			alone = "no end in 7 days"
		}
		return fmt.Sprintf(far, "pot life", w.Said, alone, plainFactor(w.Factor), " in speed", plainFactor(w.Claims))
	case fit.FarViscosity:
		return fmt.Sprintf(far, "viscosity", fmt.Sprintf("%.0f mPa·s at %v", 1e3*float64(w.Said), w.At), fmt.Sprintf("%.0f mPa·s", 1e3*float64(w.Alone)),
			plainFactor(w.Factor), "", plainFactor(w.Claims))
	}
	return ""
}

// misfitText is said beside an answer that rests on a label hardly of its system.
func misfitText(m *fit.Misfit) (text string) {
	defer shown("misfit", &text)
	if m == nil {
		return ""
	}
	f, word := m.TimeFactor, "slow"
	if f < 1 {
		f, word = 1/f, "fast"
	}
	return fmt.Sprintf("the label is %s times as %s as the record of this system, which claims %s at most: is it the right system, minutes or hours?",
		plainFactor(f), word, plainFactor(m.Claims))
}

func sayStatements(w warning.Warning) string {
	switch w := w.(type) {
	case fit.ContainerAssumed:
		return fmt.Sprintf("statement %d, %v: a cup as deep as wide is assumed; write in: {cup: 60 mm} once you know it", w.Number, &w.Statement)
	case fit.OutsideRange:
		return fmt.Sprintf("statement %d, %v: %s claims its law for %v to %v only", w.Number, &w.Statement, w.System, w.Valid.From, w.Valid.To)
	case fit.UnlikeRatio:
		head, taken := "", "is it parts by volume"
		if w.ByVolume {
			head, taken = "by the volumes given ", "are they parts by mass"
		}
		return fmt.Sprintf("%s%s g hardener to 100 g resin, where %s takes %s: %s, or the figure of another column?",
			head, plainFactor(w.Given), w.System, plainFactor(w.Usual), taken)
	case fit.FlowTimesOutside:
		return fmt.Sprintf("%s: %d of %d flow times lie outside the range of cup %s and are left out", w.File, w.Outside, w.All, w.Cup)
	}
	return ""
}

func sayFitted(w warning.Warning) string {
	switch w := w.(type) {
	case fit.NotSettled:
		return fmt.Sprintf("the fit had not settled after %d steps; the statements may not go together", w.Steps)
	case fit.FarFromSystem:
		return fmt.Sprintf("the %s differs by a factor of %s from %s, which claims %.3g; is it the right system to start from?",
			movesWords[w.What], plainFactor(w.Factor), w.System, w.Claims)
	case fit.LongerThanStated:
		said := spokenTime(w.Said)
		return missedHead(&w.Miss) + fmt.Sprintf("the new record now says %s, later than the %s stated: that is the unsafe side, trust the %s", spokenTime(w.Says), said, said) + missedCause(&w.Miss)
	case fit.MissedStatement:
		off := fmt.Sprintf("the new record misses it by %.1f standard deviations of this statement", math.Abs(w.Sigmas))
		if w.Said > 0 {
			off = fmt.Sprintf("the new record now says %s, %.1f standard deviations of this statement off", spokenTime(w.Says), math.Abs(w.Sigmas))
		}
		return missedHead(&w.Miss) + off + missedCause(&w.Miss)
	case fit.MoreContradictions:
		return fmt.Sprintf("%s of statements contradict each other by more than %.0f standard deviations, less than those named", plural(w.Pairs, "more pair"), w.Above)
	case fit.Contradiction:
		return fmt.Sprintf("statements %d and %d contradict each other by %.1f standard deviations: %v; %v", w.A+1, w.B+1, w.Sigmas, &w.OfA, &w.OfB)
	}
	return ""
}

func missedHead(m *fit.Miss) string { return fmt.Sprintf("statement %d, %v: ", m.Of+1, &m.Statement) }

func missedCause(m *fit.Miss) string {
	if m.Against < 0 {
		return "; " + m.System + ", from which the fit starts, pulls it there"
	}
	return fmt.Sprintf("; statement %d, %v, pulls it there", m.Against+1, &m.Other)
}

func sayCooling(w warning.Warning) string {
	switch w := w.(type) {
	case fit.OpenWater:
		return "open water also loses heat by evaporating, so that these losses are too high; lay a foil on it and say covered: true"
	case fit.NotToldApart:
		return "the tests do not tell surface and wall apart: test once more at a depth three times as large, or as small"
	case fit.UnevenCooling:
		return fmt.Sprintf("the water does not cool as in a room of one temperature: %.1f K off on average", float64(w.Residual))
	case fit.TooWarmWater:
		return fmt.Sprintf("above %s a vessel loses more than it does with resin in it; start at 40 to 50 °C", quantity.Format(w.Limit, "°C", 0))
	}
	return ""
}

func sayLog(w warning.Warning) string {
	switch w := w.(type) {
	case fit.LinesPassedOver:
		return fmt.Sprintf("%s: %d lines before the readings are passed over", w.File, w.Lines)
	case fit.WithoutTemperature:
		return fmt.Sprintf("%s: %d lines without a temperature are left out", w.File, w.Lines)
	case fit.SameTime:
		return fmt.Sprintf("%s: %d readings at the time of the one before are left out", w.File, w.Readings)
	case fit.ZeroIsMixing:
		return fmt.Sprintf("%s: the first reading is %v after the file's zero, which is taken for the mixing; otherwise write begins: … in cup_log", w.File, w.First)
	case fit.SecondTime:
		return fmt.Sprintf("%s: two columns of time; «%s» is used", w.File, w.Used)
	case fit.RoomColumn:
		return fmt.Sprintf("%s: the column «%s» is not used; room: in cup_log counts", w.File, w.Column)
	case fit.CountColumn:
		return w.File + ": the first column counts the readings and is left out"
	case fit.NoHeader:
		return fmt.Sprintf("%s: no header: column %d is taken for the time, column %d for the temperature", w.File, w.Time, w.Temperature)
	case fit.MinutesAndSeconds:
		return fmt.Sprintf("%s: the times run to %s and are taken for minutes and seconds", w.File, w.To)
	case fit.TimeOfDay:
		return fmt.Sprintf("%s: the times begin at %s and are taken for the time of day", w.File, w.First)
	case fit.UnitOfTimes:
		unit := "seconds"
		if w.Unit == 60 {
			unit = "minutes"
		}
		return fmt.Sprintf("%s: the times span %g and are taken for %s", w.File, w.Span, unit)
	case fit.UnitOfTemperatures:
		return fmt.Sprintf("%s: the temperatures name no unit; they begin at %s and are taken for °C", w.File, w.First)
	}
	return ""
}

// movesWords are what a parameter of a fit moves.
var movesWords = map[fit.Moves]string{
	fit.MovesRate: "rate", fit.MovesEnergy: "activation energy", fit.MovesViscosity: "viscosity", fit.MovesFlowEnergy: "flow energy",
	fit.MovesLoss: "heat loss of the cups", fit.MovesHeat: "heat of reaction", fit.MovesShift: "vitrification shift",
	fit.MovesCured: "cured glass temperature", fit.MovesFirst: "first temperature",
}

// parameterWords are those of a parameter, of a log with its file.
func parameterWords(p fit.Parameter) string {
	if p.File != "" {
		return movesWords[p.Moves] + " of " + p.File
	}
	return movesWords[p.Moves]
}

// plainFactor prints a factor as people say it: to three digits, and no power of ten.
func plainFactor(f float64) string {
	if f < 999.5 {
		return fmt.Sprintf("%.3g", f)
	}
	unit := math.Pow10(int(math.Log10(f)) - 2)
	return fmt.Sprintf("%.0f", math.Round(f/unit)*unit)
}

// spokenTime is a time as people say it.
func spokenTime(t quantity.Time) string {
	s := float64(t)
	m := math.Round(s / 60)
	switch {
	case math.IsInf(s, 1):
		return "never"
	case s < 300:
		return fmt.Sprint(quantity.Time(math.Round(s)))
	case m < 100:
		return fmt.Sprintf("%.0f min", m)
	}
	return fmt.Sprintf("%.0f h %02.0f min", math.Floor(m/60), math.Mod(m, 60))
}
