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
	"potlife/schedule/session/advice"
)

// Text writes the answer for people: what is left, what to do, and what it rests on.
func (c *Check) Text(w io.Writer) error {
	say(w, c.headline(), "", "")
	for _, line := range c.First {
		say(w, line, "", "  ")
	}
	for _, line := range c.leftLines() {
		say(w, line, "", "")
	}
	fmt.Fprintln(w)
	say(w, c.order().text(), "", "  ")
	for _, line := range c.urgent {
		say(w, "LOOK AGAIN: "+line+".", "", "  ")
	}
	if next := c.next(); next != "" {
		say(w, nextHead+next, "", "  ")
	}
	if line := c.brokenPlan(); line != "" {
		say(w, line, "", "  ")
	}
	if c.Clocks == nil { // else none of it is known
		if err := c.details(w); err != nil {
			return err
		}
	}
	section(w, "Doubts", c.later)
	section(w, "Take care", c.Cautions)
	return nil
}

// details are what the answer rests on.
func (c *Check) details(w io.Writer) error {
	section(w, "Bath", c.bathLines())
	if len(c.Layers) > 0 {
		fmt.Fprintln(w, "\nLayers to wind")
		if err := c.layerTable().write(w); err != nil {
			return err
		}
	}
	section(w, "In cups", c.cupLines())
	section(w, "On the mandrel", c.filmLines())
	return nil
}

// headline says when, and where the winding stands.
func (c *Check) headline() string { return c.when() + ": " + c.where() + "." }

func (c *Check) when() string {
	at := c.Now.Format("15:04")
	switch {
	case c.PauseS > 0:
		return fmt.Sprintf("After a pause of %s, at %s", minutes(quantity.Time(c.PauseS)), at)
	case c.Clocks != nil:
		return "At the last event, " + at
	case c.Ahead && !c.atEvent:
		return "If nothing else happens until " + at
	}
	return at
}

// where the winding stands.
func (c *Check) where() (text string) {
	defer shown("where", &text)
	switch {
	case c.Done:
		return "the session is finished"
	case c.Layer == "":
		return fmt.Sprintf("all %d layers are wound", c.layers)
	case c.Running:
		return c.place() + " is being wound"
	case c.answer.Situation.InHand:
		return "the machine stands in " + c.place()
	}
	return c.place() + " is next"
}

// place names the layer in hand, or the next, among all.
func (c *Check) place() string {
	return fmt.Sprintf("layer %d of %d (%s)", c.number, c.layers, c.called)
}

// span is a time left as people say it, rounded down.
func span(s *float64) string {
	switch {
	case s == nil:
		return "more than 2 days"
	case *s <= 0:
		return "nothing"
	}
	return roundDown(quantity.Time(*s))
}

// unknownLeft stands where clocks differ.
const unknownLeft = "How long the resin lasts is not known."

// noResin stands where there is no time left to be told.
const noResin = "There is no resin in the bath."

func (c *Check) leftLines() []string {
	if c.over() || c.bathIsHazard() {
		return nil // nobody asks for minutes beside it
	}
	if c.Clocks != nil {
		return []string{unknownLeft}
	}
	if c.Bath == nil {
		return []string{noResin}
	}
	end := c.ends()
	if c.gone() {
		return []string{"Nothing is left: " + end + "."}
	}
	lines := []string{fmt.Sprintf("Left: %s likely, %s surely; then %s.", span(c.LeftS), span(c.LeftSureS), end)}
	if c.ResinS != nil {
		where := plural(c.Circuits, "circuit")
		if last := c.answer.Resin.Layer + 1; last != c.number {
			where = fmt.Sprintf("into layer %d", last)
		}
		resin := fmt.Sprintf("Resin: %s (%s) until the bath is down to its lowest.", span(c.ResinS), where)
		if *c.ResinS < 60 {
			resin = "Resin: the bath is down to its lowest."
		}
		if c.LeftSureS == nil || *c.ResinS < *c.LeftSureS { // what ends first is said first
			lines = append([]string{resin}, lines...)
		} else {
			lines = append(lines, resin)
		}
	}
	if c.Running {
		lines = append(lines, fmt.Sprintf("If the tow stopped now: %s likely, %s surely. The reserve asks %s.",
			span(c.StoppedS), span(c.StoppedSureS), minutes(quantity.Time(c.ReserveS))))
	} else {
		lines = append(lines, fmt.Sprintf("The reserve asks %s of it.", minutes(quantity.Time(c.ReserveS))))
	}
	return lines
}

// ends says what ends the bath, or has ended it: what is past is no more what it is.
func (c *Check) ends() (text string) {
	limit := vessel.Limit(c.EndsBy)
	if c.PastSince == nil {
		return c.Limits.words(limit)
	}
	defer shown(c.EndsBy, &text)
	at := clock(*c.PastSince, c.Now)
	switch limit {
	case vessel.BathViscosity:
		return fmt.Sprintf("thicker than %s mPa·s since %s", viscosity(quantity.Viscosity(c.Limits.BathViscosity)), at)
	case vessel.LaidViscosity:
		return fmt.Sprintf("thicker than %s mPa·s as laid since %s", viscosity(quantity.Viscosity(c.Limits.LaidViscosity)), at)
	case vessel.BathTemperature:
		over := "over %s at %s"
		if c.Bath != nil && c.Bath.TemperatureHi >= c.Limits.BathTemperature {
			over = "over %s since %s"
		}
		return fmt.Sprintf(over, quantity.Format(quantity.Celsius(c.Limits.BathTemperature), "°C", 0), at)
	case vessel.Gel:
		return "gelled at " + at
	case vessel.NotClean:
		return "to be cleaned since " + at
	}
	return c.Limits.words(limit)
}

func (c *Check) bathIsHazard() bool {
	return slices.ContainsFunc(c.Hazards, func(h Hazard) bool { return h.What == OfBath })
}

// over tells that the day is: what is left in the bath was weighed and is of no use any more.
func (c *Check) over() bool { return c.MachineRule == string(advice.DayOver) }

// gone tells that nothing is left even likely.
func (c *Check) gone() bool {
	return c.LeftSureS != nil && *c.LeftSureS <= 0 && c.LeftS != nil && *c.LeftS <= 0
}

// nextHead stands before what is poured next.
const nextHead = "Next: "

// next says what is poured next, where that is not now.
func (c *Check) next() string {
	n := c.Next
	if n == nil || n.Now {
		return "" // it is the order, or it waits for the layer in hand
	}
	where := "before layer " + n.Layer
	if n.Circuit > 0 {
		where = fmt.Sprintf("at circuit %d of layer %s", n.Circuit, n.Layer)
	}
	line := fmt.Sprintf("%s, at about %s, %s: %s", where, hand(n.PourAt), poursWords(n.Into), potWords(n.PourPots, n.Mix))
	if len(n.Mix) > 0 {
		line += ", begun at " + hand(n.MixAt)
		if n.Latest.Sub(n.MixAt) >= time.Minute {
			line += ", at the latest at " + hand(n.Latest)
		}
	}
	return line + "."
}

// brokenPlan says that the plan in force no longer keeps its limits, and what the order goes by;
// empty: it does.
func (c *Check) brokenPlan() (text string) {
	defer shown("broken-plan", &text)
	p := c.answer.Plan
	if p == nil || p.Holds() || len(c.Hazards) > 0 {
		return ""
	}
	why := "what was poured and wound does not fit it any more"
	if p.Plan != nil {
		why = fmt.Sprintf("%.0f of 100 baths keep it from here, and 90 must", math.Floor(100*p.Chance.KeepsAll+1e-9))
	}
	then := "No other plan keeps the limits either."
	if c.answer.Planned {
		then = "What is said here goes by a new one: potlife replan shows it, replan --take makes it the plan."
	}
	return fmt.Sprintf("The plan of %s no longer holds: %s. %s", clock(p.Kept.From, c.Now), why, then)
}

// potWords name pots that stand ready, by their numbers, then what is to be mixed.
func potWords(cups []int, mix []Parts) string {
	var parts []string
	switch len(cups) {
	case 0:
	case 1:
		parts = append(parts, "pour pot "+number(cups[0]))
	default:
		names := make([]string, len(cups))
		for i, pot := range cups {
			names[i] = number(pot)
		}
		parts = append(parts, "pour pots "+listed(names))
	}
	if len(mix) > 0 {
		parts = append(parts, mixWords(mix))
	}
	return strings.Join(parts, " and ")
}

// mixWords say what is weighed into each pot: "two times" could be read as twice as much in
// one.
func mixWords(mix []Parts) string {
	if len(mix) == 1 {
		return fmt.Sprintf("mix %s g resin with %s g hardener", weight(mix[0].ResinG), weight(mix[0].HardenerG))
	}
	each, alike := make([]string, len(mix)), true
	for i, pot := range mix {
		each[i] = fmt.Sprintf("%s g resin and %s g hardener", weight(pot.ResinG), weight(pot.HardenerG))
		alike = alike && each[i] == each[0]
	}
	if alike {
		return fmt.Sprintf("mix %s pots, each of %s", counted(len(mix)), each[0])
	}
	return fmt.Sprintf("mix %s pots: one of %s", counted(len(mix)), strings.Join(each, ", one of "))
}

// listed joins names as people say them.
func listed(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// counted is a small number as a word, which nobody takes for a mass.
func counted(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	if n < len(words) {
		return words[n]
	}
	return number(n)
}

// weight prints grams with the decimals that a scale shows.
func weight(g float64) string { return strconv.FormatFloat(g, 'f', decimals(g), 64) }

func (c *Check) bathLines() []string {
	b := c.Bath
	if b == nil || c.over() {
		return nil
	}
	lines := []string{fmt.Sprintf("%.0f g, %s (surely below %s), %s, mixed %s ago, degree of cure %.2f",
		b.MassG, tenths(b.TemperatureC), tenths(b.TemperatureHi), b.thickness(), minutes(quantity.Time(b.AgeS)), b.Alpha)}
	if b.CleanBy != nil {
		lines = append(lines, fmt.Sprintf("change it by %s: topping up does not renew what sticks to wiper and walls", clock(b.CleanBy.Truncate(time.Minute), c.Now)))
	}
	if l := c.Learnt; l.Readings > 0 {
		lines = append(lines, fmt.Sprintf("%s: this resin cures %.2f times as fast as the record says (within a factor of %.2f) and is %.2f times as thick (%.2f)",
			plural(l.Readings, "reading"), l.Reactivity, l.ReactivityRange, l.Viscosity, l.ViscosityRange))
	} else {
		lines = append(lines, "no reading yet: a thermometer in the bath makes this sharper, log bath-temp")
	}
	return lines
}

// thickness tells the viscosity of a bath that has one.
func (b *CheckBath) thickness() string {
	switch {
	case b.Viscosity == nil:
		return "gelled"
	case b.ViscosityHi == nil:
		return viscosityOr(b.Viscosity, "") + " mPa·s (perhaps gelled)"
	}
	return fmt.Sprintf("%s mPa·s (surely below %s)", viscosityOr(b.Viscosity, ""), viscosityOr(b.ViscosityHi, ""))
}

func (c *Check) layerTable() *table {
	t := &table{head: []string{"layer", "needs", "done by", "fits"}, left: []bool{true, false, false, true}}
	for _, l := range c.Layers {
		fits := "no"
		switch {
		case l.Fits:
			fits = "yes"
		case l.Lacks == string(advice.LacksResin):
			fits = "after a pour"
		}
		t.add(shorten(l.Name, 30), minutes(quantity.Time(l.NeedsS)), hand(l.DoneBy), fits)
	}
	return t
}

func (c *Check) cupLines() []string {
	var lines []string
	for _, cup := range c.Cups {
		lines = append(lines, fmt.Sprintf("pot %d: %.0f g, mixed %s ago, %s; %s likely, %s surely until %s",
			cup.PotNumber, cup.MassG, minutes(quantity.Time(cup.AgeS)), temperature(quantity.Celsius(cup.TemperatureC)),
			span(cup.LeftS), span(cup.LeftSureS), c.Limits.wordsOf("it", "the mandrel's temperature", vessel.Limit(cup.EndsBy))))
	}
	return lines
}

// filmLines tell which layers gel first; a long list is cut to its ends.
func (c *Check) filmLines() []string {
	var lines []string
	for i, f := range c.Laid {
		if len(c.Laid) > 8 && i >= 2 && i < len(c.Laid)-3 {
			if i == 2 {
				lines = append(lines, "…")
			}
			continue
		}
		when := "not within a week"
		if f.Gels != nil {
			when = "gels at " + clock(*f.Gels, c.Now)
			if f.GelsS != nil && *f.GelsS <= 0 {
				when = "gelled at " + clock(*f.Gels, c.Now)
			}
		}
		lines = append(lines, fmt.Sprintf("layer %s: %s", f.Name, when))
	}
	return lines
}
