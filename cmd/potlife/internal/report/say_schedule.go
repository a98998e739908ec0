package report

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/schedule"
)

// siteWords name what has a temperature.
var siteWords = map[schedule.Site]string{
	schedule.SiteRoom: "the room", schedule.SiteResin: "the resin when mixed", schedule.SiteJacket: "the jacket", schedule.SiteMandrel: "the mandrel",
}

// saySchedule says what looks wrong in a job, and in resin that stands.
func saySchedule(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case schedule.OutsideData:
		at := wholeCelsius(w.At)
		if w.Site != "" {
			at = siteWords[w.Site] + " at " + at
		}
		return fmt.Sprintf("%s lies outside %s to %s, where the data of %s may be trusted", at, wholeCelsius(w.Trusted.From), wholeCelsius(w.Trusted.To), w.Resin), true
	case schedule.VesselTooDeep:
		return fmt.Sprintf("%v would stand %s deep %s: are the sizes right?", w.Mass, quantity.Format(w.Depth, "mm", 0), w.In), true
	case schedule.VesselTooShallow:
		return fmt.Sprintf("%v would stand %s deep %s: are the sizes right?", w.Mass, quantity.Format(w.Depth, "mm", 3), w.In), true
	case schedule.RoomBeginsLate:
		return fmt.Sprintf("the room's course begins at %s, after the start: until then it is taken as %v", w.Begins, w.Taken), true
	case schedule.LessonsOfOtherResin:
		return fmt.Sprintf("%s learned the reactivity of %s, not of %s: it is left out", w.File, w.Resin, w.Record), true
	case schedule.LessonsUsed:
		return lessonWords(w), true
	case schedule.LeftOut:
		return leftOutWords(w), true
	case schedule.TooThickWhenMixed:
		return fmt.Sprintf("too thick when mixed: it thins to its limit after %.0f min, at %s", w.ThinsAfter.In("min"), quantity.Format(w.ThinAt, "°C", 1)), true
	case schedule.PotEndsInCup:
		return fmt.Sprintf("the pot of %s begun at %s lasts %.0f min in its cup for sure, and is poured after %.0f: with the reserve of %.0f min that is too long; mix less at a time, or cooler",
			wholeGrams(w.Pot), hand(w.Begun), math.Floor(w.Lasts.In("min")), math.Ceil(w.Stands.In("min")), w.Reserve.In("min")), true
	case schedule.TimeShownTwice:
		return fmt.Sprintf("the clock shows %s twice on that day: %s is taken; if it was the other, write '%s'",
			w.Taken.Format("15:04"), w.Taken.Format("15:04 -0700"), w.Other.Format("2006-01-02 15:04 -0700")), true
	case schedule.MorePotsEndInCups:
		return fmt.Sprintf("nor do %d more pots last in their cups until they are poured", w.Pots), true
	}
	if text, known := sayWinding(w); known {
		return text, true
	}
	return sayContradiction(w)
}

// sayWinding says what looks wrong in the layers, the machine and the fibre.
func sayWinding(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case schedule.TowDoubtful:
		return fmt.Sprintf("layer %s has %s of tow as measured, its geometry takes %s: is it the path of the band, in the right unit?",
			w.Layer, metresOf(w.Measured), metresOf(w.Computed)), true
	case schedule.TimeDoubtful:
		return fmt.Sprintf("layer %s is wound in %v as measured, %s of tow at %.3g times the machine's %v: is the time right?",
			w.Layer, w.Measured, metresOf(w.Tow), float64(w.Tow)/float64(w.Measured)/float64(w.Machine), w.Machine), true
	case schedule.LayerGelsUnderWay:
		return fmt.Sprintf("layer %s takes %s, and resin laid at the mandrel's %s gels within %s: its end is wound onto what has set",
			w.Layer, roughly(w.Takes), wholeCelsius(w.Mandrel), roughly(w.Gels)), true
	case schedule.TowTooFast:
		return fmt.Sprintf("machine.tow_speed is %s, and wet winding hardly runs faster than %s: is it the right unit?",
			quantity.Format(w.Speed, "m/min", 0), quantity.Format(w.Fastest, "m/min", 0)), true
	case schedule.PlyDoubtful:
		return fmt.Sprintf("%s lies %.3g mm thick at %v: check band, tows, tex and fibre_fraction", bandWords(w.Band), w.Thickness.In("mm"), w.Fraction), true
	case schedule.BandTooWide:
		return fmt.Sprintf("%s is %.3g mm for each tow, and such a tow hardly lies wider than %.3g mm: check band and tows", bandWords(w.Band), w.Each.In("mm"), w.Widest.In("mm")), true
	case schedule.FibreFractionUnusual:
		return fmt.Sprintf("%.0f %% fibre by mass is unusual for wet winding with %s (%.0f to %.0f %%)", 100*w.ByMass, w.Fibre, 100*w.Lowest, 100*w.Highest), true
	}
	return "", false
}

// sayContradiction says which two figures of a job do not go together.
func sayContradiction(w warning.Warning) (string, bool) {
	switch w := w.(type) {
	case schedule.PotGelsInMixing:
		return fmt.Sprintf("a pot of %v gels in its cup within the %v that mixing takes: check pots.mixing, or mix cooler", w.Pot, w.Mixing), true
	case schedule.WarmerThanLimit:
		return tooWarmWords(w), true
	case schedule.NeverThins:
		return fmt.Sprintf("resin has %s at %s when mixing ends, after %v, and never thins to limits.bath_viscosity, %s: warm it, give a higher limit, or take a thinner system",
			wholeViscosity(w.Viscosity), wholeCelsius(w.At), w.Mixing, wholeViscosity(w.Limit)), true
	case schedule.TooThickOnMandrel:
		return fmt.Sprintf("resin has %s at the mandrel's %s when mixing ends, after %v, and limits.laid_viscosity is %s: warm the mandrel, give a higher limit, or take a thinner system",
			wholeViscosity(w.Viscosity), wholeCelsius(w.Mandrel), w.Mixing, wholeViscosity(w.Limit)), true
	case schedule.TooHotWhenMixed:
		return fmt.Sprintf("resin has %s when mixing ends, after %v, more than the %s that a bath may have: check pots.mixing, mix cooler or smaller pots, or give a higher limits.bath_temperature",
			wholeCelsius(w.At), w.Mixing, wholeCelsius(w.Limit)), true
	case schedule.FreshBathTooShort:
		if w.EndsBy == vessel.NotClean {
			return fmt.Sprintf("limits.clean leaves %.0f min, less than limits.reserve, %v: give a longer one", math.Floor(w.Lasts.In("min")), w.Reserve), true
		}
		return fmt.Sprintf("a fresh bath likely lasts %.0f min at most, less than limits.reserve, %v: give a lower reserve, another hardener or other temperatures",
			math.Floor(w.Lasts.In("min")), w.Reserve), true
	}
	return "", false
}

func tooWarmWords(w schedule.WarmerThanLimit) string {
	limit := "limits.bath_temperature, " + wholeCelsius(w.Limit)
	switch w.From {
	case schedule.FromJacket:
		limit = fmt.Sprintf("%s, %g K above the jacket where no limit is given", wholeCelsius(w.Limit), float64(vessel.UsualJacketMargin))
	case schedule.FromUse:
		limit = wholeCelsius(w.Limit) + ", the usual limit"
	}
	what, cooler := siteWords[w.Site]+" is", "a cooler one"
	if w.Site == schedule.SiteResin {
		what, cooler = "resin is mixed", "mix cooler resin"
	}
	return fmt.Sprintf("%s at %s, and the bath may not be as warm as %s: give a higher limits.bath_temperature, or %s", what, wholeCelsius(w.At), limit, cooler)
}

func bandWords(b schedule.TowBand) string {
	return fmt.Sprintf("a band of %v from %s of %s", b.Width, plural(b.Tows, "tow"), quantity.Format(b.Tex, "tex", 0))
}

func lessonWords(w schedule.LessonsUsed) string {
	var told []string
	tell := func(lesson schedule.Lesson, format string, args ...any) {
		if lesson.Known() {
			told = append(told, fmt.Sprintf(format, args...)+fmt.Sprintf(" (%d)", lesson.Sessions))
		}
	}
	tell(w.PickUp, "pick-up %.2f instead of %.2f", w.PickUp.Value, w.OfJob.PickUp)
	tell(w.LeftInCup, "%.1f %% left in cups instead of %.1f %%", 100*w.LeftInCup.Value, 100*float64(w.OfJob.LeftInCup))
	tell(w.Minutes, "layers take %.2f times the time", w.Minutes.Value)
	tell(w.Reactivity, "the resin cures %.2f times as fast", w.Reactivity.Value)
	return "learned from finished sessions (so many): " + strings.Join(told, ", ")
}

func leftOutWords(w schedule.LeftOut) string {
	var keys, taken []string
	if w.Ends {
		keys, taken = append(keys, "ends"), append(taken, "no fibre beside the cylinder")
	}
	if w.Limits {
		keys = append(keys, "limits")
	}
	limit := func(left bool, key, instead string) {
		if !left {
			return
		}
		if taken = append(taken, instead); !w.Limits {
			keys = append(keys, "limits."+key)
		}
	}
	limit(w.BathViscosity > 0, "bath_viscosity", wholeViscosity(w.BathViscosity)+" in the bath")
	limit(w.LaidViscosity > 0, "laid_viscosity", wholeViscosity(w.LaidViscosity)+" as laid")
	limit(w.BathTemperature > 0, "bath_temperature", wholeCelsius(w.BathTemperature))
	limit(w.Reserve > 0, "reserve", fmt.Sprintf("a reserve of %v", w.Reserve))
	return fmt.Sprintf("the job leaves out %s; taken: %s", strings.Join(keys, ", "), strings.Join(taken, ", "))
}

func wholeViscosity(v quantity.Viscosity) string { return quantity.Format(v, "mPa·s", 0) }

// wholeGrams prints a mass rounded down to what it must not be promised above.
func wholeGrams(m quantity.Mass) string {
	g := m.In("g")
	if g < 10 {
		return fmt.Sprintf("%.1f g", math.Floor(g*10)/10)
	}
	return fmt.Sprintf("%.0f g", math.Floor(g*(1+1e-12)))
}

func metresOf(l quantity.Length) string {
	if l < 10 {
		return fmt.Sprintf("%.3g m", float64(l))
	}
	return quantity.Format(l, "m", 0)
}

// roughly is a duration as people say it.
func roughly(t quantity.Time) string {
	switch s := float64(t); {
	case s < 120:
		return fmt.Sprintf("%.0f s", math.Ceil(s))
	case s < 7200:
		return fmt.Sprintf("%.0f min", s/60)
	}
	return fmt.Sprintf("%.0f h", t.In("h"))
}
