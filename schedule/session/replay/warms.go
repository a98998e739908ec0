package replay

import (
	"potlife/kinetics/quantity"
)

// warms learns from the mixes that were read today how much warmer than its parts resin is when it
// is mixed: the mean of what was read less what the parts should have had. The parts stand where
// they stand and the drill turns as it turns, so that this holds for the pots that were not
// read and for those to come, in place of what the job expects and of its spread. A mix that was
// read has it already.
func (s *Script) warms() {
	sum, n := 0.0, 0.0
	without := *s.Task
	without.Pots.Warms = 0
	for i := range s.Pots {
		if p := &s.Pots[i]; p.Mixed > 0 {
			sum += float64(p.Mixed - without.MixedAt(p.MixedAt))
			n++
		}
	}
	if n > 0 {
		s.Task.Pots.Warms = quantity.TemperatureDifference(sum / n)
		s.Task.Spread.Mixed = 0
	}
}

// mixedAt is the temperature of a pot when it was mixed: as read, or as this world has it.
func (w *World) mixedAt(p *Pot) quantity.Temperature {
	if p.Mixed > 0 {
		return p.Mixed
	}
	return w.script.Task.MixedAt(p.MixedAt) + quantity.Temperature(w.Member.Mixed)
}
