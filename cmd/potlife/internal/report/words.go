package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins/fit"
)

// minutes prints a duration as people say it: 45 s, 24 min, 1 h 05 min, 3 d 4 h.
func minutes(t quantity.Time) string {
	s := float64(t)
	switch {
	case math.IsInf(s, 1):
		return "never"
	case s < 0:
		return "−" + minutes(-t)
	case s < 90:
		return fmt.Sprintf("%.0f s", s)
	}
	m := int(math.Round(s / 60))
	switch {
	case m < 100:
		return fmt.Sprintf("%d min", m)
	case m < 48*60:
		return fmt.Sprintf("%d h %02d min", m/60, m%60)
	}
	return fmt.Sprintf("%d d %d h", m/1440, m%1440/60)
}

// roundDown prints a time that must not be promised longer than it is, in whole
// minutes, below two of them in whole seconds.
func roundDown(t quantity.Time) string {
	s := float64(t)
	switch {
	case s < 0 || math.IsInf(s, 1):
		return minutes(t)
	case s < 120:
		return fmt.Sprintf("%.0f s", math.Floor(s))
	}
	return minutes(quantity.Time(math.Floor(s/60) * 60))
}

// hours prints a duration in a table, rounded down, so that it cannot be read as
// a time of day: 0h59, 2h32; a negative one away from zero.
func hours(t quantity.Time) string {
	m := int(math.Floor(float64(t) / 60))
	sign := ""
	if m < 0 {
		sign, m = "−", -m
	}
	return fmt.Sprintf("%s%dh%02d", sign, m/60, m%60)
}

// clock prints a time of day to the nearest minute, with the number of days after
// the first one where it is not that.
func clock(t, first time.Time) string {
	t = t.Round(time.Minute)
	text := hand(t)
	if days := daysAfter(t, first); days > 0 {
		text += fmt.Sprintf("+%d", days)
	}
	return text
}

// hand prints a time of day in a table, whose rows are headed by their day.
func hand(t time.Time) string {
	t = t.Round(time.Minute)
	if shownTwice(t) {
		return t.Format("15:04 MST") // as --at takes it
	}
	return t.Format("15:04")
}

// shownTwice tells whether a clock shows a time twice, as when summer ends.
func shownTwice(t time.Time) bool {
	return slices.ContainsFunc([]time.Duration{-time.Hour, -30 * time.Minute, 30 * time.Minute, time.Hour}, func(apart time.Duration) bool {
		return t.Add(apart).Format("15:04") == t.Format("15:04")
	})
}

// heading is the row that starts a day of a table after the first, empty within
// one.
func heading(t, first time.Time, day *int) string {
	days := daysAfter(t.Round(time.Minute), first)
	if days == *day {
		return ""
	}
	*day = days
	return "day " + number(days+1)
}

// daysAfter counts midnights between two times of one zone.
func daysAfter(t, first time.Time) int {
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(day(t).Sub(day(first)) / (24 * time.Hour))
}

// viscosity prints mPa·s to three digits.
func viscosity(v quantity.Viscosity) string {
	x := printedViscosity(v)
	if math.IsInf(x, 1) {
		return "gelled"
	}
	return fmt.Sprintf("%.0f", x)
}

// printedViscosity is the figure that is printed, in mPa·s.
func printedViscosity(v quantity.Viscosity) float64 {
	x := v.In("mPa·s")
	if x >= 1000 {
		return math.Round(x/10) * 10
	}
	return math.Round(x)
}

// mass prints g below 10 kg and kg above, to what a crew can weigh of so much.
func mass(m quantity.Mass) string {
	switch g := m.In("g"); {
	case g > 0 && g < 0.95:
		return fmt.Sprintf("%.1g g", g)
	case g < 10_000:
		return fmt.Sprintf("%.0f g", g)
	case m < 100:
		return fmt.Sprintf("%.2f kg", float64(m))
	}
	return fmt.Sprintf("%.0f kg", float64(m))
}

// Limits are the bounds that an answer was held to.
type Limits struct {
	BathViscosity   float64 `json:"bath_viscosity_Pa_s"`
	LaidViscosity   float64 `json:"laid_viscosity_Pa_s"`
	BathTemperature float64 `json:"bath_temperature_C"`
	CleanS          float64 `json:"clean_s,omitempty"` // left out: until what sticks gels, or for ever
}

func newLimits(l vessel.Limits) Limits {
	clean := float64(l.Clean)
	if l.Clean == vessel.Uncleaned {
		clean = 0
	}
	return Limits{float64(l.BathViscosity), float64(l.LaidViscosity), l.BathTemperature.Celsius(), clean}
}

// words say what ends a working life, as a clause with the limit's figure.
func (l Limits) words(limit vessel.Limit) string {
	return l.wordsOf("the bath", "the mandrel's temperature", limit)
}

// wordsOf are words about the resin that is named, laid at the temperature that is named.
func (l Limits) wordsOf(resin, laidAt string, limit vessel.Limit) (text string) {
	defer shown(string(limit), &text)
	switch limit {
	case vessel.BathViscosity:
		return fmt.Sprintf("%s is thicker than %s mPa·s", resin, viscosity(quantity.Viscosity(l.BathViscosity)))
	case vessel.LaidViscosity:
		return fmt.Sprintf("resin laid at %s is thicker than %s mPa·s", laidAt, viscosity(quantity.Viscosity(l.LaidViscosity)))
	case vessel.BathTemperature:
		return fmt.Sprintf("%s is warmer than %s, runaway is near", resin, quantity.Format(quantity.Celsius(l.BathTemperature), "°C", 0))
	case vessel.Gel:
		return "the resin gels"
	case vessel.NotClean:
		if l.CleanS > 0 {
			return fmt.Sprintf("%s has been in use for %s, limits.clean", resin, minutes(quantity.Time(l.CleanS)))
		}
		return "resin that sticks to wiper and walls gels"
	case vessel.TooThick:
		return fmt.Sprintf("%s is thicker than %s mPa·s from mixing and never thins", resin, viscosity(quantity.Viscosity(l.BathViscosity)))
	}
	return "nothing ends it within the time looked at"
}

// section writes a heading with lines folded and indented below it; nothing for
// no lines.
func section(w io.Writer, heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", heading)
	for _, line := range lines {
		say(w, line, "  ", "    ")
	}
}

// foldTo breaks a text at spaces to a width, but not between a number and its unit.
func foldTo(width int, text, first, rest string) string {
	return foldWords(width, together(strings.Fields(text)), first, rest)
}

// foldWords puts words on lines of a width; a word may hold spaces.
func foldWords(width int, words []string, first, rest string) string {
	var b strings.Builder
	line, used := first, 0
	for _, word := range words {
		if used > 0 && len([]rune(line))+1+len([]rune(word)) > width {
			b.WriteString(line + "\n")
			line, used = rest, 0
		}
		if used > 0 {
			line += " "
		}
		line += word
		used++
	}
	b.WriteString(line + "\n")
	return b.String()
}

// units are words that stay with the number before them.
var units = map[string]bool{"°C": true, "mPa·s": true, "g": true, "kg": true, "K": true, "mm": true, "m": true, "%": true, "min": true, "h": true, "s": true, "d": true}

// together joins numbers with their units, and hours with their minutes.
func together(words []string) []string {
	var list []string
	for _, word := range words {
		bare := strings.TrimRight(word, ".,;:)")
		n := len(list) - 1
		switch {
		case n >= 0 && units[bare] && isNumber(list[n]):
			list[n] += " " + word
			if n > 0 && bare == "min" && strings.HasSuffix(list[n-1], " h") {
				list = append(list[:n-1], list[n-1]+" "+list[n])
			}
		default:
			list = append(list, word)
		}
	}
	return list
}

func isNumber(word string) bool {
	_, err := strconv.ParseFloat(strings.TrimLeft(word, "(−"), 64)
	return err == nil
}

// doubtfulLabel is the caution while a label is hardly of its system: by the label's word
// a pot may seem harmless that is not.
const doubtfulLabel = "The label is doubtful: until it is checked, treat every pot as one that can run away, whatever is said here of what cannot."

// labelled puts that caution first where there is a misfit.
func labelled(misfit *fit.Misfit, list []string) []string {
	if misfit == nil {
		return list
	}
	return append(cautions(doubtfulLabel), list...)
}

// hotPot is the caution that goes wherever a pot is mixed.
const hotPot = "STILL LIQUID BUT HOT OR RISING? Spread it thin, outdoors. SET, SMOKING OR OVER 60 °C? Keep away, air the room, call. Never in a bin: a forgotten pot can pass 200 °C and burn."

// Cautions are printed at the foot of whatever may be followed with resin on
// the gloves.
func Cautions(own string) []string {
	list := []string{
		"Hardeners sensitise skin and airways for life: gloves, air, and the safety data sheet first.",
		hotPot,
		"Pressure parts are for licensed practice and local code: this tool sizes resin, it approves nothing.",
	}
	if own != "" {
		list = append(list, own)
	}
	return cautions(list...)
}

// cautions are such sentences.
func cautions(list ...string) []string {
	for i := range list {
		shown("caution", &list[i])
	}
	return list
}
