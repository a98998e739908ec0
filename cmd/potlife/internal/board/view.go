package board

import (
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
	Unknown  bool     // what is left is: the clocks differ
	Asks     []string // of the crew, before the order

	Figure    []report.FigurePart // empty: there is no bath
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
		AlarmText: c.Alarm().Words(),
	}
	if v.Unknown = c.Clocks != nil; v.Unknown {
		v.AlarmText = "Clocks differ"
	} else if c.Bath != nil && !c.Done {
		left := c.TimesLeft()
		v.Figure, v.Sure, v.Likely, v.Going, v.Resin = left.Figure, left.What, left.Likely, left.Going, left.Other
		v.Ends = said.Ends
		v.Strip = newStrip(c, b.clockOf)
	}
	v.Asks = said.First[len(c.Hazards):]
	if v.Danger = len(s.hazards()) > 0; v.Danger {
		v.Next = ""
	}
	if !v.Unknown {
		v.Layer = c.LayerNeeds(b.clockOf)
		v.Cups = b.cupWords(c, now)
	}
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

// spokenAge is how long ago something was.
func spokenAge(d time.Duration) string {
	s := d.Seconds()
	return report.Spoken(&s)
}

func (b *Board) cupWords(c *report.Check, now time.Time) []string {
	var list []string
	for i := range c.Cups {
		list = append(list, c.Cups[i].Words(now, b.clockOf))
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
