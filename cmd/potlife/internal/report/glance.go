package report

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// A FigurePart is a number of a figure with its unit, which a display may set apart.
type FigurePart struct{ Number, Unit string }

// Figure is a time left in s, rounded down: it must not be promised longer than it is.
func Figure(s *float64) []FigurePart {
	switch {
	case s == nil:
		return []FigurePart{{"2", "days or more"}}
	case *s <= 0:
		return []FigurePart{{"0", "min"}}
	case *s < 60:
		return []FigurePart{{fmt.Sprint(int(*s)), "s"}}
	}
	m := int(math.Floor(*s / 60))
	if m < 100 {
		return []FigurePart{{fmt.Sprint(m), "min"}}
	}
	return []FigurePart{{fmt.Sprint(m / 60), "h"}, {fmt.Sprintf("%02d", m%60), "min"}}
}

// Spoken is a [Figure] in a sentence.
func Spoken(s *float64) string {
	if s != nil && *s <= 0 {
		return "nothing"
	}
	text := ""
	for _, p := range Figure(s) {
		text += " " + p.Number + " " + p.Unit
	}
	return text[1:]
}

// TimesLeft are the times left of an answer with a bath.
type TimesLeft struct {
	Figure []FigurePart // of the clock that leads
	What   string       // what it is
	Other  string       // the clock that does not lead; may be empty
	Going  string       // what is left with the tow running, where that is another time; may be empty
	Likely string
}

// TimesLeft returns them.
func (c *Check) TimesLeft() TimesLeft {
	lead, resin := c.Lead()
	k := TimesLeft{Figure: Figure(lead), What: "surely left", Likely: Spoken(c.StoppedS)}
	if c.Running {
		k.What = "surely left, should the tow stop"
	}
	switch {
	case resin:
		k.What = "of resin left"
		k.Other = "of life surely " + Spoken(c.StoppedSureS)
	case c.ResinS != nil:
		k.Other = "of resin " + Spoken(c.ResinS)
	}
	if c.Running && differ(c.StoppedSureS, c.LeftSureS) {
		k.Going = "with the tow running surely " + Spoken(c.LeftSureS)
	}
	shown("clock-that-leads", &k.What)
	shown("other-clock", &k.Other)
	shown("tow-running", &k.Going)
	return k
}

// worthTelling is by how much, in s, two times left differ before both are told.
const worthTelling = 5 * 60.0

func differ(a, b *float64) bool {
	if a == nil || b == nil {
		return a != b
	}
	return math.Abs(*a-*b) >= worthTelling
}

// LayerNeeds says of the layer in hand, or the next, whether it fits; empty where there is none.
// clock tells a time of day as the display does.
func (c *Check) LayerNeeds(clock func(time.Time) string) (text string) {
	defer shown("layer-needs", &text)
	if len(c.Layers) == 0 {
		return ""
	}
	l := &c.Layers[0]
	fits := "does not fit into what is left"
	switch {
	case l.Fits:
		fits = "fits"
	case l.Lacks == "resin":
		fits = "the bath has not enough resin for it"
	}
	return fmt.Sprintf("%s: needs %s, done by %s if it goes on now; %s", l.Name, Spoken(&l.NeedsS), clock(l.DoneBy), fits)
}

// Words say how a pot in its cup stands at now.
func (p *CheckCup) Words(now time.Time, clock func(time.Time) string) (text string) {
	defer shown("pot-in-cup", &text)
	age := "just now"
	if p.AgeS >= 60 {
		age = Spoken(&p.AgeS) + " ago"
	}
	text = fmt.Sprintf("pot %d: %s g, mixed %s", p.PotNumber, Weight(p.MassG), age)
	switch {
	case p.OffRatio != 0:
		text += ": off its ratio, do not pour it"
	case !p.Usable:
		text += ": past use, do not pour it; spread it thin, outdoors"
	case p.LeftSureS != nil:
		text += ", surely good until " + clock(later(now, *p.LeftSureS))
	}
	return text
}

// TimeAhead says what a strip of the time ahead shows, for those who do not see it: until when
// the bath is good, given in s from now, and so many of the layers to come. No likely time is one
// beyond what is shown.
func (c *Check) TimeAhead(sure float64, likely *float64, layers int, clock func(time.Time) string) (text string) {
	defer shown("time-ahead", &text)
	words := []string{fmt.Sprintf("The time ahead. The bath is surely good until %s, the reserve begins at %s.",
		clock(later(c.Now, sure)), clock(later(c.Now, math.Max(0, sure-c.ReserveS))))}
	if likely != nil {
		words = append(words, "Likely it is good until "+clock(later(c.Now, *likely))+".")
	}
	for i := range c.Layers[:layers] {
		l := &c.Layers[i]
		fits := "does not fit"
		if l.Fits {
			fits = "fits"
		}
		words = append(words, fmt.Sprintf("Layer %s until %s: %s.", l.Name, clock(l.DoneBy), fits))
	}
	return strings.Join(words, " ")
}

func later(t time.Time, s float64) time.Time { return t.Add(time.Duration(s * float64(time.Second))) }
