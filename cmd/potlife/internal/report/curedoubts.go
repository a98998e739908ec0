package report

import (
	"fmt"

	"potlife/kinetics/quantity"
	"potlife/schedule"
)

// assumed tells what the job leaves to the usual figures.
func (c *Cure) assumed(w *schedule.Winding) []string {
	var list []string
	m, own := &c.task.Mandrel, &c.task.Cure
	if !m.Stated && !own.Free {
		list = append(list, fmt.Sprintf("the job does not say what the mandrel is made of: taken as a %s tube of %s; write mandrel.material and wall",
			m.Material.Name, quantity.Format(m.Wall, "mm", 1)))
	}
	if !own.Oven.Stated {
		list = append(list, fmt.Sprintf("the job says nothing of the oven: taken as one of up to %s that heats by %.3g K/min; write cure: {oven: {highest: 80 °C, ramp: 1 K/min}}",
			temperature(own.Oven.Highest), own.Oven.Ramp.In("K/min")))
	}
	if doubt := w.Record.Doubt(); doubt != "" {
		list = append(list, doubt)
	}
	return list
}

// doubts tells where the model is beyond what it knows.
func (c *Cure) doubts() []string {
	var list []string
	t, a := c.task, c.is
	if room := t.Room.At(t.Wound()); !t.Valid.Holds(room) {
		list = append(list, fmt.Sprintf("the room at %s lies outside %s to %s, where the data of %s may be trusted: what it does in the room is a guess",
			temperature(room), temperature(t.Valid.From), temperature(t.Valid.To), c.Resin))
	}
	if a.Program != nil {
		hottest := a.Program.Hottest(a.From)
		if !t.Valid.Holds(hottest) {
			list = append(list, fmt.Sprintf("the oven at %s lies outside %s to %s, where the data of %s may be trusted: times are good to a factor of %.2f there instead of %.2f, and the program allows for that",
				temperature(hottest), temperature(t.Valid.From), temperature(t.Valid.To), c.Resin, *c.SpreadOven, c.Spread))
		}
	}
	return list
}
