package batches

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// makeReady lets the heel stand that is topped up or wound from, or dumps it.
func (r *referee) makeReady(p *Pour) error {
	r.checkInto(p)
	if p.Into == TopUp || p.Into == None {
		if !(r.state.Mass > 0) {
			return nil // told already: there is none
		}
		if err := r.advance(float64(p.At), vessel.Tow{}, p.Stop); err != nil {
			return err
		}
		if p.Into == TopUp && r.state.Alpha > HeelLimit*r.task.Resin.Gel {
			r.broken(Broken{Promise: HeelYoung, Unit: p.Stop, Got: r.state.Alpha / r.task.Resin.Gel, Want: HeelLimit})
		}
		return nil
	}
	if err := r.checkClean(); err != nil {
		return err
	}
	if p.Into == Change {
		r.tally.Score.Changes++
		r.tally.Score.Waste += r.state.Mass
		if p.At < quantity.Time(r.now)+r.task.Bath.Change-r.task.Bath.Pour*quantity.Time(len(p.Pots))-clockSlack {
			r.broken(Broken{Promise: TimeToWipe, Unit: p.Stop})
		}
	}
	r.watch.Fresh()
	r.state, r.lies = vessel.State{}, nil
	r.now = float64(p.At)
	return nil
}

// checkInto checks that the bath is one that can be poured into so, or wound from.
func (r *referee) checkInto(p *Pour) {
	begins := p.Stop == 0
	switch filled := !begins || r.task.Begin.Filled; {
	case (p.Into == Fill) == filled, p.Into == None && !begins,
		p.Into == None && (len(p.Pots) > 0 || p.At != r.task.Begin.At), // one that is gone on from
		p.Into != None && len(p.Pots) == 0:
		r.broken(Broken{Promise: IntoFits, Unit: p.Stop, At: p.At})
	}
	if float64(p.At) < r.now-clockSlack {
		r.broken(Broken{Promise: PoursInOrder, Unit: p.Stop, At: p.At, Got: float64(p.At), Want: r.now})
	}
	if begins && r.over != vessel.NoLimit && p.Into != Change {
		r.broken(Broken{Promise: BathAlive, Limit: r.over})
	}
}

// takeCup checks that a pot that is to stand mixed already does, and takes it.
func (r *referee) takeCup(p *Pour, pot *MixedPot) {
	cup, found := r.cups[pot.Seq]
	if !found || cup != *pot || r.poured {
		r.broken(Broken{Promise: CupStands, Unit: p.Stop, Pot: pot.Seq})
	}
	if pot.MixAt+r.task.Pots.Mixing > p.At+clockSlack {
		r.broken(Broken{Promise: PotMixed, Unit: p.Stop, Pot: pot.Seq})
	}
	delete(r.cups, pot.Seq)
}

// checkPots checks sizes, the scale, the ratio and that cups follow each other.
func (r *referee) checkPots(p *Pour) {
	t := r.task
	if !t.Pots.Helper && p.Stop > 0 {
		// Nobody mixes while the machine winds.
		r.mixers = max(r.mixers, r.plan.End[p.Stop-1])
	}
	for i, pot := range p.Pots {
		if pot.Seq > 0 {
			r.takeCup(p, &pot)
			continue
		}
		r.tally.Score.Pots++
		mass := pot.Mass()
		if mass < t.Pots.Smallest-slackMass || mass > t.Pots.Largest*(1+relativeMassSlackOfScale) {
			r.broken(Broken{Promise: PotInBounds, Unit: p.Stop, Got: float64(mass)})
		}
		for _, part := range []quantity.Mass{pot.Resin, pot.Hardener} {
			steps := float64(part / t.Pots.Step)
			if math.Abs(steps-math.Round(steps)) > relativeMassSlackOfScale*steps {
				r.broken(Broken{Promise: PotOnScale, Unit: p.Stop, Got: float64(part)})
			}
		}
		ready := pot.MixAt + t.Pots.Mixing
		if i+1 < len(p.Pots) && ready > p.Pots[i+1].MixAt+clockSlack || ready > p.At+clockSlack {
			r.broken(Broken{Promise: PotMixed, Unit: p.Stop})
		}
		if pot.MixAt < r.mixers-clockSlack {
			r.broken(Broken{Promise: MixersFree, Unit: p.Stop, Got: float64(pot.MixAt), Want: float64(r.mixers)})
		}
	}
	r.mixers, r.poured = p.At, r.poured || len(p.Pots) > 0
	if p.Winds < p.At+t.Bath.Pour*quantity.Time(len(p.Pots))-clockSlack {
		r.broken(Broken{Promise: TimeToPour, Unit: p.Stop})
	}
}
