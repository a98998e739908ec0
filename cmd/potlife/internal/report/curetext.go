package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/schedule/cure"
)

// Text writes the answer for people.
func (c *Cure) Text(out io.Writer) error {
	say(out, c.headline(), "", "")
	section(out, "Broken", c.Broken)
	fmt.Fprintln(out, "\nWhat to do when")
	for _, e := range c.timeline() {
		say(out, e.words, "  "+pad(clock(c.at(e.at), c.Wound), 7)+"  ", strings.Repeat(" ", 11))
	}
	if len(c.Steps) > 0 {
		if err := c.controller(out); err != nil {
			return err
		}
		if err := c.part(out); err != nil {
			return err
		}
	}
	section(out, "In the room alone", c.roomLines())
	section(out, "Doubts", c.Warnings)
	section(out, "Take care", c.Cautions)
	return nil
}

func pad(text string, width int) string {
	if n := width - len([]rune(text)); n > 0 {
		return text + strings.Repeat(" ", n)
	}
	return text
}

func (c *Cure) headline() string {
	name := c.Job + ", wound by " + clock(c.Wound, c.Wound)
	if c.is.Program == nil {
		return name + ": no oven program. " + upper(c.Why) + "."
	}
	program := fmt.Sprintf("%s: %s in the oven from %s, out at %s.", name, minutes(c.is.Program.Lasts(c.is.From)),
		clock(c.at(c.is.Start), c.Wound), clock(c.at(c.is.End()), c.Wound))
	switch {
	case c.Given && c.Feasible:
		return program + " The program given keeps every limit."
	case c.Given:
		return program + " The program given breaks what is listed."
	case c.Feasible:
		return program
	}
	return program + " It is the best found, and not good enough."
}

// entryAt is a line of the timeline; at is from the last layer.
type entryAt struct {
	at    quantity.Time
	words string
}

func (c *Cure) timeline() []entryAt {
	list := []entryAt{{0, "the last layer is down: keep the mandrel turning"}}
	if c.task.Cure.Oven.Turns && c.is.Program != nil {
		list[0].words = "the last layer is down: into the oven, and keep the mandrel turning in it"
	}
	add := func(at *float64, words string) {
		if at != nil && (c.is.Program == nil || quantity.Time(*at) <= c.is.End()+1) {
			list = append(list, entryAt{quantity.Time(*at), words})
		}
	}
	sag := fmt.Sprintf("the resin no longer drains, being over %s everywhere: turning may stop. Do not warm it yet, it would run again", c.task.Cure.NoSag)
	add(c.StopTurningSure, sag+c.maybe(c.StopTurning))
	gelled := "gelled to its last place: it may be left"
	if c.is.Program != nil && !c.task.Cure.Free && !c.task.Cure.Oven.Turns {
		gelled += " and go into the oven"
	}
	add(c.GelAtSure, gelled+c.maybe(c.GelAt))
	if c.DemouldSure != nil && (c.is.Program == nil || c.task.Cure.Free) {
		words := fmt.Sprintf("the mandrel may be drawn: gelled, and the glass temperature %.0f K above the room", float64(c.task.Cure.DemouldMargin))
		if c.task.Cure.Free && c.is.Program != nil {
			words += "; then into the oven"
		}
		add(c.DemouldSure, words+c.maybe(c.DemouldInRoom))
	}
	if c.is.Program != nil {
		list = append(list, c.ovenLines()...)
	}
	return list
}

// maybe adds when the likely hardener is there, where that is another minute.
func (c *Cure) maybe(at *float64) string {
	if at == nil {
		return ""
	}
	return fmt.Sprintf(" (likely from %s)", clock(c.at(quantity.Time(*at)), c.Wound))
}

func (c *Cure) ovenLines() []entryAt {
	var list []entryAt
	now := c.is.Start
	for _, s := range c.is.Program.Steps {
		to := temperature(s.To)
		words := ""
		switch s.Kind {
		case cure.Ramp:
			words = "the oven heats to " + to
		case cure.Hold:
			words = "it holds " + to
		case cure.Cool:
			words = "it cools to " + to
		}
		list = append(list, entryAt{now, words})
		now = c.is.Start + quantity.Time(c.Steps[len(list)-1].EndsS) - c.is.Start
	}
	last := "out of the oven"
	if !c.task.Mandrel.Stays && !c.task.Cure.Free {
		last += ": the mandrel may be drawn"
	}
	return append(list, entryAt{now, last})
}

// controller is the table of steps.
func (c *Cure) controller(out io.Writer) error {
	fmt.Fprintln(out, "\nFor the oven's controller")
	t := &table{head: []string{"step", "", "to °C", "K/h", "K/min", "takes", "ends"}, left: []bool{false, true}}
	before := float64(c.is.Start)
	for i, s := range c.Steps {
		perHour, perMinute := "", ""
		if s.Rate != nil {
			perHour, perMinute = fmt.Sprintf("%.0f", *s.Rate*60), fmt.Sprintf("%.2f", *s.Rate)
		}
		t.add(fmt.Sprint(i+1), s.Kind, fmt.Sprintf("%.0f", s.ToC), perHour, perMinute, minutes(quantity.Time(s.EndsS-before)), clock(c.at(quantity.Time(s.EndsS)), c.Wound))
		before = s.EndsS
	}
	return t.write(out)
}

// part is what the program makes of it.
func (c *Cure) part(out io.Writer) error {
	fmt.Fprintln(out, "\nThe part")
	t := &table{head: []string{"", "likely", "surely"}, left: []bool{true}}
	slow, likely, fast := c.is.Tally.Slow(), c.is.Tally.Likely(), c.is.Tally.Fast()
	t.add("degree of cure of the laziest place as the last hold ends", fmt.Sprintf("%.3f", likely.Laziest.Degree), fmt.Sprintf("over %.3f", floor(slow.Laziest.Degree, 1e-3)))
	t.add("its glass temperature then", temperature(likely.Laziest.Glass), atLeast(slow.Laziest.Glass))
	t.add("and out of the oven", temperature(likely.Out.Glass), atLeast(slow.Out.Glass))
	t.add("hottest place, ever", temperature(likely.Peak), atMost(max(fast.Peak, slow.Peak, likely.Peak)))
	if c.task.Cure.Free {
		t.add("glass temperature ahead of the part, least", fmt.Sprintf("%.1f K", float64(likely.Lead)), fmt.Sprintf("over %.1f K", floor(float64(min(slow.Lead, fast.Lead)), 0.1)))
	}
	if err := t.write(out); err != nil {
		return err
	}
	if words := c.usualWords(); words != "" {
		say(out, words, "  ", "  ")
	}
	return nil
}

// What is sure is not rounded to the better side.
func floor(x, step float64) float64 { return math.Floor(x/step*(1+1e-12)) * step }

func atLeast(t quantity.Temperature) string {
	return "over " + temperature(quantity.Celsius(floor(t.Celsius(), 1)))
}

func atMost(t quantity.Temperature) string {
	if t > smokeAndFire {
		return temperature(t)
	}
	return "below " + temperature(quantity.Celsius(math.Ceil(t.Celsius())))
}

// usualWords compares with the trade's rule.
func (c *Cure) usualWords() string {
	if c.Usual == nil || c.Usual.LastsS == nil {
		return ""
	}
	rule := fmt.Sprintf("The usual rule, 10 K/h to the same temperature and a hold, takes %s in the oven", minutes(quantity.Time(*c.Usual.LastsS)))
	saves := *c.Usual.LastsS - float64(c.is.Program.Lasts(c.is.From))
	switch {
	case c.Usual.Breaks:
		return rule + " and breaks a limit."
	case math.Abs(saves) < 60:
		return rule + ": the same."
	case saves < 0:
		return rule + fmt.Sprintf(": %s less, by what rounding and guards of this one cost.", minutes(quantity.Time(-saves)))
	}
	return rule + fmt.Sprintf(": %s longer.", minutes(quantity.Time(saves)))
}

func (c *Cure) roomLines() []string {
	var list []string
	for _, r := range []struct {
		days int
		is   RoomCure
	}{{7, c.Room7d}, {28, c.Room28d}} {
		list = append(list, fmt.Sprintf("after %d days the laziest place has cured to %.2f, glass temperature %.0f °C, %.0f K above the room", r.days, r.is.Degree, r.is.GlassC, r.is.AboveK))
	}
	if c.DemouldSure != nil {
		list = append(list, fmt.Sprintf("the mandrel may be drawn %s after the last layer, likely after %s", minutes(quantity.Time(*c.DemouldSure)), minutes(quantity.Time(*c.DemouldInRoom))))
	} else if !c.task.Mandrel.Stays {
		list = append(list, "the mandrel can not be drawn within four weeks")
	}
	return list
}

// ChartTitle heads the picture.
func (c *Cure) ChartTitle() string { return c.Job + ": cure, " + programLine(c.is.Program) }
