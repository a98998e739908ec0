package batches

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// Mixing warms: resin is as warm as its parts were, and by [Pots.Warms] warmer, more or
// less by what a member says. What was read in a cup has all of that already.

// MixedAt is the temperature of fresh resin mixed at an elapsed time, as expected.
func (t *Task) MixedAt(at quantity.Time) quantity.Temperature { return t.mixedAt(float64(at), 0) }

// PotMixedAt is the temperature at which a pot of a plan is mixed for a member. For one
// that stood mixed when the plan began, a shift came too late.
func (t *Task) PotMixedAt(p *MixedPot, m ensemble.Member) quantity.Temperature {
	switch {
	case p.Mixed > 0:
		return p.Mixed
	case p.Seq > 0:
		return t.partsAt(float64(p.MixAt)) + t.warms(m.Mixed)
	}
	return t.mixedAt(float64(p.MixAt), m.Mixed)
}

// WarmestMixed is the highest temperature at which a member can have fresh resin mixed.
func (t *Task) WarmestMixed(m ensemble.Member) quantity.Temperature {
	parts := t.ResinAt
	if parts == 0 {
		parts = t.Room.Highest()
	}
	return parts + t.warms(m.Mixed)
}

// mixedAt is the temperature of fresh resin mixed at elapsed time at, in a member that has
// it so many K warmer than expected.
func (t *Task) mixedAt(at, warmer float64) quantity.Temperature {
	return t.partsAt(at) + quantity.Temperature(t.ResinShift) + t.warms(warmer)
}

// partsAt is the temperature of both parts as the job has it.
func (t *Task) partsAt(at float64) quantity.Temperature {
	if t.ResinAt == 0 {
		return t.Room.At(quantity.Time(at))
	}
	return t.ResinAt
}

func (t *Task) warms(warmer float64) quantity.Temperature {
	return quantity.Temperature(t.Pots.Warms) + quantity.Temperature(warmer)
}

// asMixed is a pot in its cup as it is mixed, for a member.
func (t *Task) asMixed(p *MixedPot, m ensemble.Member) vessel.State {
	return vessel.State{Mass: p.Mass(), Temperature: t.PotMixedAt(p, m)}
}
