package cure

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
)

// Kind is what a step does to the oven's air.
type Kind string

// The kinds of steps.
const (
	Ramp Kind = "ramp"
	Hold Kind = "hold"
	Cool Kind = "cool"
)

// A Step of a program. A hold keeps the air where the step before left it.
type Step struct {
	Kind Kind
	To   quantity.Temperature
	Rate quantity.HeatingRate // of a ramp or a cooling, positive
	Hold quantity.Time
}

// A Program is what an oven's controller is set to.
type Program struct {
	Steps   []Step
	Renamed []warning.Warning // keys that its file has under names of before
}

// OutOfOven is the air at which a part is taken out by hand (common practice).
var OutOfOven = quantity.Celsius(40)

// Lasts returns how long a program takes from air at a temperature.
func (p *Program) Lasts(from quantity.Temperature) quantity.Time {
	ends := p.Ends(from)
	if len(ends) == 0 {
		return 0
	}
	return ends[len(ends)-1]
}

// Ends are the times at which the steps end, from the start.
func (p *Program) Ends(from quantity.Temperature) []quantity.Time {
	ends := make([]quantity.Time, len(p.Steps))
	now := quantity.Time(0)
	for i, s := range p.Steps {
		now += s.lasts(from)
		ends[i], from = now, s.after(from)
	}
	return ends
}

func (s *Step) lasts(from quantity.Temperature) quantity.Time {
	if s.Kind == Hold {
		return s.Hold
	}
	rise := float64(s.To - from)
	if rise < 0 {
		rise = -rise
	}
	return quantity.Time(rise / float64(s.Rate))
}

func (s *Step) after(from quantity.Temperature) quantity.Temperature {
	if s.Kind == Hold {
		return from
	}
	return s.To
}

// HoldEnds is when the last hold, or else the last ramp up, ends: the target is due then.
func (p *Program) HoldEnds(from quantity.Temperature) quantity.Time {
	end := quantity.Time(0)
	for i, e := range p.Ends(from) {
		if p.Steps[i].Kind != Cool {
			end = e
		}
	}
	return end
}

// Hottest is the hottest air of the program.
func (p *Program) Hottest(from quantity.Temperature) quantity.Temperature {
	for _, s := range p.Steps {
		if s.Kind != Hold {
			from = max(from, s.To)
		}
	}
	return from
}

// Air is the oven's air: at from before the start, what the program leaves after its end.
func (p *Program) Air(start quantity.Time, from quantity.Temperature) (vessel.Series, error) {
	at, is := []quantity.Time{start}, []quantity.Temperature{from}
	for i, end := range p.Ends(from) {
		now := p.Steps[i].after(is[len(is)-1])
		if start+end > at[len(at)-1] {
			at, is = append(at, start+end), append(is, now)
		}
	}
	return vessel.NewSeries(at, is)
}
