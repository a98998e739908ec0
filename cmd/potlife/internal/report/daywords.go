package report

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"time"

	"potlife/kinetics/quantity"
)

// verdict sums the day up in sentences.
func (b *dayBuilder) verdict() []string {
	d := b.day
	lines := []string{d.woundWords(), d.mixedWords()}
	for _, more := range []string{d.worstWords(), d.readingWords(), d.learntWords(), d.runWords(), d.fractionWords()} {
		if more != "" {
			lines = append(lines, more)
		}
	}
	for i := range lines {
		shown("day-verdict", &lines[i])
	}
	return lines
}

func (d *Day) clock(t *time.Time) string {
	if t == nil {
		return "–"
	}
	return clock(*t, d.Started)
}

// woundWords say how far the winding came, and when.
func (d *Day) woundWords() string {
	done, all := d.Totals.LayersDone, d.Totals.LayersOfJob
	text := fmt.Sprintf("%d of %d layers are wound", done, all)
	switch {
	case done == all && all == 1:
		text = "The layer is wound"
	case done == all:
		text = fmt.Sprintf("All %d layers are wound", all)
	case d.Layers[0].Start == nil:
		text = "Nothing is wound"
	}
	if done > 0 {
		text += fmt.Sprintf(", from %s to %s", d.clock(d.Layers[0].Start), d.clock(d.Layers[done-1].End))
	}
	for i, l := range d.Layers {
		if l.GivenUp != nil {
			text += fmt.Sprintf("; layer %d given up at %s, %s", i+1, shareWords(*l.Share), d.clock(l.GivenUp))
		}
	}
	if last := d.Layers[all-1]; last.PlannedEnd != nil {
		text += fmt.Sprintf("; the plan had %s to %s", d.clock(d.Layers[0].PlannedStart), d.clock(last.PlannedEnd))
	} else {
		text += "; there was no plan that keeps every limit"
	}
	if d.Ended == nil {
		text += ". The session is open: this is the day up to " + clock(d.Until, d.Started)
	}
	return text + "."
}

// shareWords print how much of a layer is wound.
func shareWords(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

func (d *Day) mixedWords() string {
	t := d.Totals
	text := upper(plural(t.PotsMixed, "pot")) + " mixed"
	if t.PotsMixed > 0 {
		text += ", " + mass(quantity.Mass(t.MixedG/1000))
	}
	if d.planned() {
		text += fmt.Sprintf("; planned: %s, %s", plural(t.PotsPlanned, "pot"), mass(quantity.Mass(t.PlannedG/1000)))
	}
	text += fmt.Sprintf(". %s of the bath", upper(plural(t.Changes, "change")))
	if d.planned() {
		text += fmt.Sprintf(", planned: %s", plural(t.PlannedChanges, "change"))
	}
	return text + "."
}

func (d *Day) planned() bool { return d.Layers[0].PlannedStart != nil }

// upper begins a sentence.
func upper(text string) string {
	r := []rune(text)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

func (d *Day) worstWords() string {
	w := d.Wound
	if w == nil {
		return ""
	}
	text := "While it was wound from, the bath was likely within its limits at every moment"
	switch {
	case w.OverLikely:
		text = fmt.Sprintf("While it was wound from, the bath was likely past a limit, first at %s", d.clock(w.OverAt))
	case w.OverPossibly:
		text += ", but one in ten like it was past one"
	}
	return fmt.Sprintf("%s: %s, hottest %s at %s (%s; limit %s).", text, w.thickestWords(d), tenths(w.HottestC), clock(w.HottestAt, d.Started), tenths(w.HottestHiC), tenths(d.Limits.BathTemperature))
}

func (w *DayWorst) thickestWords(d *Day) string {
	at, limit := clock(w.ThickestAt, d.Started), viscosity(quantity.Viscosity(d.Limits.BathViscosity))
	if w.Thickest == nil {
		return "gelled at " + at
	}
	sure := "one in ten had gelled"
	if w.ThickestHi != nil {
		sure = "9 in 10 below " + viscosity(quantity.Viscosity(*w.ThickestHi))
	}
	return fmt.Sprintf("thickest %s mPa·s at %s (%s; limit %s)", viscosity(quantity.Viscosity(*w.Thickest)), at, sure, limit)
}

func (d *Day) readingWords() string {
	n, beside := map[ReadingVerdict]int{}, 0
	for i := range d.Readings {
		if r := &d.Readings[i]; r.besides() {
			beside++
		} else {
			n[r.lies()]++
		}
	}
	if len(d.Readings) == 0 {
		return "The bath was not read: what is said of it rests on the record alone."
	}
	text := fmt.Sprintf("%s of the bath: %d inside its band", upper(plural(len(d.Readings), "reading")), n[InBand])
	if beside > 0 {
		text += fmt.Sprintf(", %d outside it by less than the error of a reading", beside)
	}
	for _, v := range []ReadingVerdict{AboveBand, BelowBand, Unlikely} {
		if n[v] > 0 {
			text += fmt.Sprintf(", %d %s", n[v], v.words())
		}
	}
	return text + "."
}

func (v ReadingVerdict) words() string {
	return map[ReadingVerdict]string{InBand: "inside", AboveBand: "above it", BelowBand: "below it", Unlikely: "that no bath explains"}[v]
}

func (d *Day) learntWords() string {
	l := d.Learnt
	if l == nil {
		return ""
	}
	return fmt.Sprintf("By its readings this resin cures %.2f times as fast as the record says (within a factor of %.2f) and is %.2f times as thick (%.2f).",
		l.Reactivity, l.ReactivityRange, l.Viscosity, l.ViscosityRange)
}

// runWords say how long the machine ran and stood.
func (d *Day) runWords() string {
	ran, planned := 0.0, 0.0
	for _, l := range d.Layers {
		if l.End != nil {
			ran, planned = ran+*l.RanS, planned+l.PlannedRunS
		}
	}
	var parts []string
	if ran > 0 {
		parts = append(parts, fmt.Sprintf("the layers done ran %s, planned %s", minutes(quantity.Time(ran)), minutes(quantity.Time(planned))))
	}
	if n := len(d.Pauses); n > 0 {
		parts = append(parts, fmt.Sprintf("%s, %s in all", plural(n, "pause"), minutes(quantity.Time(d.Totals.PausedS))))
	}
	if len(parts) == 0 {
		return ""
	}
	return upper(strings.Join(parts, "; ")) + "."
}

func (d *Day) fractionWords() string {
	f := d.Fractions
	if f == nil || f.answer == nil || f.answer.Verdict == nil {
		return ""
	}
	text := "The part by weight: " + verdictWords[f.answer.Verdict.Word] + ": " + verdictReason(f.answer.Result)
	if cost := verdictCost(f.answer.Result); cost != "" {
		text += "; " + cost
	}
	return text + "."
}

// heading is the line below the name.
func (d *Day) heading() string {
	return fmt.Sprintf("%s · %s · %s", d.Started.Format("Monday, 2 January 2006"), d.Resin, filepath.Base(d.Session))
}

// foot says what the report rests on.
func (d *Day) foot() string {
	text := fmt.Sprintf("From a journal of %s", plural(d.Totals.Events, "event"))
	if n := d.Totals.Undone; n > 0 {
		text += fmt.Sprintf(", %d of them taken back", n)
	}
	return text + ". The plan is made again from the session's copies of job and resin. The bath's band is that of 8 in 10 baths, by all readings of the day."
}

// minutesOff prints a difference in minutes with its sign: +5, −3, 0.
func minutesOff(s *float64) string {
	if s == nil {
		return "–"
	}
	m := math.Round(*s / 60)
	switch {
	case m > 0:
		return fmt.Sprintf("+%.0f", m)
	case m < 0:
		return fmt.Sprintf("−%.0f", -m)
	}
	return "0"
}
