package board

import (
	"fmt"
	"math"
	"time"

	"potlife/cmd/potlife/internal/report"
)

// A view is what is shown at one moment, in words and places.
type view struct {
	Alarm    string // calm, reserve, over, dangerous
	Fault    string // there is no answer: what is shown beside it is struck out
	Of       string // when what is struck out was true; empty: there is none
	Headline string
	Danger   bool     // a hazard stands: nothing is mixed
	Asks     []string // of the crew, before the order

	Figure    []part // empty: there is no bath
	AlarmText string
	Sure      string // what the figure is
	Likely    string
	Going     string
	Resin     string // the clock that does not lead
	Ends      string
	Strip     *strip

	Verb, How, Reason, Pour, By string
	Urgent                      []string

	Layer    string // what the layer in hand, or the next, needs
	Next     string // the pour after that
	Cups     []string
	Doubts   []string
	Cautions []string
}

// A part of a figure: a number and its unit.
type part struct{ Number, Unit string }

// view draws the answer as it stands at now: since it was worked out the time left has run
// down by as much.
func (b *Board) view(s *state, now time.Time) *view {
	if s.answer == nil {
		return b.without(s, now)
	}
	c := aged(s.answer, now)
	said := c.Said()
	v := &view{
		Headline: said.Headline, Verb: said.Verb, How: said.How, Reason: said.Reason, Pour: said.Pour, By: said.By, Urgent: said.Urgent, Next: said.Next,
		Doubts: said.Doubts, Cautions: c.Cautions, Alarm: alarms[c.Alarm()],
		AlarmText: map[report.Alarm]string{report.ReserveReached: "Reserve reached", report.LifeOver: "Nothing is surely left"}[c.Alarm()],
	}
	if c.Bath != nil && !c.Done {
		lead, resin := c.Lead()
		v.Figure = figure(lead)
		v.Likely = spoken(c.StoppedS)
		v.Ends = said.Ends
		v.Strip = newStrip(c, b.clockOf)
		v.Sure = "surely left"
		if c.Running {
			v.Sure = "surely left, should the tow stop"
		}
		switch {
		case resin:
			v.Sure = "of resin left"
			v.Resin = "of life surely " + spoken(c.StoppedSureS)
		case c.ResinS != nil:
			v.Resin = "of resin " + spoken(c.ResinS)
		}
		if c.Running && differ(c.StoppedSureS, c.LeftSureS) {
			v.Going = "with the tow running surely " + spoken(c.LeftSureS)
		}
	}
	v.Asks = said.First[len(c.Hazards):]
	if v.Danger = len(s.hazards()) > 0; v.Danger {
		v.Next = ""
	}
	v.Layer = b.layerWords(c)
	v.Cups = b.cupWords(c, now)
	v.Doubts = append(v.Doubts[:len(v.Doubts):len(v.Doubts)], s.cut...)
	return v
}

// without is the view where there is no answer: why, and the one before, struck out. Its time
// left runs down all the same, since the bath does, and so does the alarm.
func (b *Board) without(s *state, now time.Time) *view {
	v := &view{Alarm: alarms[report.Calm]}
	if s.before != nil {
		past := *s
		past.answer = s.before
		v = b.view(&past, now)
		v.Of = b.clock(s.before.Now)
	}
	v.Fault, v.Headline = s.fault, "There is no answer"
	if s.broken != nil {
		v.Headline = "The session cannot be read"
	}
	return v
}

var alarms = map[report.Alarm]string{report.Calm: "calm", report.ReserveReached: "reserve", report.LifeOver: "over", report.Dangerous: "dangerous"}

// aged is an answer as it stands a little later.
func aged(c *report.Check, now time.Time) *report.Check {
	passed := now.Sub(c.Now).Seconds()
	if !(passed > 0) || c.Finished() {
		return c
	}
	less := func(s *float64) *float64 {
		if s == nil {
			return nil
		}
		rest := *s - passed
		return &rest
	}
	later := *c
	if c.Running {
		later.ResinS = less(c.ResinS)
	}
	later.LeftS, later.LeftSureS, later.StoppedS, later.StoppedSureS = less(c.LeftS), less(c.LeftSureS), less(c.StoppedS), less(c.StoppedSureS)
	later.Now = now.In(c.Now.Location())
	return &later
}

// worthTelling is by how much the time left with the tow running differs from that without
// before it is told.
const worthTelling = 5 * 60.0

func differ(a, b *float64) bool {
	if a == nil || b == nil {
		return a != b
	}
	return math.Abs(*a-*b) >= worthTelling
}

// figure is a time left, rounded down: it must not be promised longer than it is.
func figure(s *float64) []part {
	switch {
	case s == nil:
		return []part{{"2", "days or more"}}
	case *s <= 0:
		return []part{{"0", "min"}}
	case *s < 60:
		return []part{{fmt.Sprint(int(*s)), "s"}}
	}
	m := int(math.Floor(*s / 60))
	if m < 100 {
		return []part{{fmt.Sprint(m), "min"}}
	}
	return []part{{fmt.Sprint(m / 60), "h"}, {fmt.Sprintf("%02d", m%60), "min"}}
}

// spoken is a time left in a sentence.
func spoken(s *float64) string {
	if s != nil && *s <= 0 {
		return "nothing"
	}
	text := ""
	for _, p := range figure(s) {
		text += " " + p.Number + " " + p.Unit
	}
	return text[1:]
}

// spokenAge is how long ago something was.
func spokenAge(d time.Duration) string {
	s := d.Seconds()
	return spoken(&s)
}

func (b *Board) layerWords(c *report.Check) string {
	if len(c.Layers) == 0 {
		return ""
	}
	l := c.Layers[0]
	fits := "does not fit into what is left"
	switch {
	case l.Fits:
		fits = "fits"
	case l.Lacks == "resin":
		fits = "the bath has not enough resin for it"
	}
	return fmt.Sprintf("%s: needs %s, done by %s if it goes on now; %s", l.Name, spoken(&l.NeedsS), b.clockOf(l.DoneBy), fits)
}

func (b *Board) cupWords(c *report.Check, now time.Time) []string {
	var list []string
	for _, cup := range c.Cups {
		age := "just now"
		if cup.AgeS >= 60 {
			age = spoken(&cup.AgeS) + " ago"
		}
		text := fmt.Sprintf("pot %d: %s g, mixed %s", cup.PotNumber, report.Weight(cup.MassG), age)
		switch {
		case cup.OffRatio != 0:
			text += ": off its ratio, do not pour it"
		case !cup.Usable:
			text += ": past use, do not pour it; spread it thin, outdoors"
		case cup.LeftSureS != nil:
			text += ", surely good until " + b.clockOf(now.Add(time.Duration(*cup.LeftSureS*float64(time.Second))))
		}
		list = append(list, text)
	}
	return list
}

// clock is a time of day with its seconds; around a change of the hour with its zone, since
// the clock then shows times twice.
func (b *Board) clock(t time.Time) string { return b.format(t, "15:04:05") }

func (b *Board) clockOf(t time.Time) string { return b.format(t, "15:04") }

func (b *Board) format(t time.Time, layout string) string {
	t = t.In(b.setting.Zone)
	if b.changesHour(t) {
		layout += " MST"
	}
	return t.Format(layout)
}

// nearChange is how long before and after a change of the hour the zone is told.
const nearChange = 3 * time.Hour

func (b *Board) changesHour(t time.Time) bool {
	_, before := t.Add(-nearChange).Zone()
	_, after := t.Add(nearChange).Zone()
	return before != after
}
