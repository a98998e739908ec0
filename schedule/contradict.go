package schedule

import (
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
)

// contradictions are what no plan can mend, since it lies in the job itself: the best
// that any plan could begin with, a pot mixed at the start into a bath at its lowest or at
// its highest, breaks a limit at once on the likely bath, or the reserve. Each says which
// two figures do not go together.
func (w *Winding) contradictions() []warning.Warning {
	t := w.Task
	if warm := w.tooWarm(); warm != nil {
		return []warning.Warning{warm}
	}
	ready := t.Pots.Mixing
	cup := vessel.New(t.Resin, t.Pots.Cup, t.Room, t.Room, vessel.Working)
	bath := still.NewStand(t.Resin, t.Bath.Vessel, t.Room, t.Wall, vessel.Working)
	var best vessel.Life
	var from vessel.State
	small, large := begun{t.Pots.Smallest, t.Bath.Lowest, ready}, begun{t.Pots.Largest, t.Bath.Highest, ready}
	// Resin that is too warm cools in a cup that waits for others, a small pot soonest.
	for i, mass := range []begun{small, large, small.waiting(2), small.waiting(4), small.waiting(8)} {
		fresh, err := cup.Advance(vessel.State{Mass: mass.pot, Temperature: t.MixedAt(0)}, 0, mass.at, vessel.Tow{})
		if err != nil {
			return nil // the search tells a simulation that fails
		}
		if i == 0 && fresh.Alpha >= t.Resin.Gel {
			return []warning.Warning{PotGelsInMixing{t.Pots.Smallest, t.Pots.Mixing}}
		}
		fresh = vessel.Pour(&t.Resin, vessel.State{}, fresh)
		fresh.Mass = mass.bath
		life, err := bath.Life(fresh, mass.at, t.Limits, asFarAsContradicted)
		if err != nil {
			return nil
		}
		if i == 0 || life.Left > best.Left {
			best, from = life, fresh
		}
	}
	if over := w.overAtOnce(best, from, ready); over != nil {
		return []warning.Warning{over}
	}
	return nil
}

// begun is a bath that a plan could begin with: of pots of such a mass, poured then.
type begun struct {
	pot, bath quantity.Mass
	at        quantity.Time
}

// waiting is the same with pots that stand so many times as long.
func (b begun) waiting(times float64) begun {
	b.at *= quantity.Time(times)
	return b
}

// asFarAsContradicted is how far the fresh bath is followed: two days, as in a plan.
const asFarAsContradicted quantity.Time = 48 * 3600

// tooWarm tells that resin as mixed, in a room that does not cool it, or what is around the
// bath is warmer than the bath may be; nil: neither is.
func (w *Winding) tooWarm() warning.Warning {
	t := w.Task
	found := WarmerThanLimit{Limit: t.Limits.BathTemperature, From: FromUse}
	around, site := t.Room, SiteRoom
	if w.Job.Bath.HasJacket {
		around, site, found.From = t.Wall, SiteJacket, FromJacket
	}
	if w.Job.Limits.BathTemperature > 0 {
		found.From = FromJob
	}
	switch {
	case t.MixedAt(0) >= found.Limit && t.Room.IsConstant() && t.Room.At(0) >= found.Limit: // and does not cool in its cup
		found.Site, found.At = SiteResin, t.MixedAt(0)
	case around.IsConstant() && around.At(0) >= found.Limit:
		found.Site, found.At = site, around.At(0)
	default:
		return nil
	}
	return found
}

// overAtOnce tells why a fresh bath cannot be used, or not as long as the reserve; nil
// where it can, and where it cannot by gel alone, which the pot has been asked about.
func (w *Winding) overAtOnce(life vessel.Life, fresh vessel.State, at quantity.Time) warning.Warning {
	t := w.Task
	switch {
	case life.Over() && life.EndsBy == vessel.TooThick:
		return NeverThins{Viscosity: fresh.Viscosity(&t.Resin), Limit: t.Limits.BathViscosity, At: fresh.Temperature, Mixing: t.Pots.Mixing}
	case life.Over() && life.EndsBy == vessel.LaidViscosity:
		laid := fresh
		laid.Temperature = t.Limits.Mandrel.At(at)
		return TooThickOnMandrel{Viscosity: laid.Viscosity(&t.Resin), Limit: t.Limits.LaidViscosity, Mandrel: laid.Temperature, Mixing: t.Pots.Mixing}
	case life.Over() && life.EndsBy == vessel.BathTemperature:
		return TooHotWhenMixed{At: fresh.Temperature, Limit: t.Limits.BathTemperature, Mixing: t.Pots.Mixing}
	case !life.Over() && life.Left < t.Reserve:
		return FreshBathTooShort{Lasts: life.Left, Reserve: t.Reserve, EndsBy: life.EndsBy}
	}
	return nil
}
