package schedule

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// contradictions are what no plan can mend, since it lies in the job itself: the best
// that any plan could begin with, a pot mixed at the start into a bath at its lowest or at
// its highest, breaks a limit at once on the likely bath, or the reserve. Each says which
// two figures do not go together.
func (w *Winding) contradictions() []string {
	t := w.Task
	if text := w.tooWarm(); text != "" {
		return []string{text}
	}
	ready := t.Pots.Mixing
	cup := vessel.New(t.Resin, t.Pots.Cup, t.Room, t.Room, vessel.Working)
	bath := vessel.New(t.Resin, t.Bath.Vessel, t.Room, t.Wall, vessel.Working)
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
			return []string{fmt.Sprintf("a pot of %v gels in its cup within the %v that mixing takes: check pots.mixing, or mix cooler", t.Pots.Smallest, t.Pots.Mixing)}
		}
		fresh.Mass = mass.bath
		life, err := bath.Life(fresh, mass.at, vessel.Tow{}, 0, t.Limits, asFarAsContradicted)
		if err != nil {
			return nil
		}
		if i == 0 || life.Left > best.Left {
			best, from = life, fresh
		}
	}
	if text := w.overAtOnce(best, from, ready); text != "" {
		return []string{text}
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
// bath is warmer than the bath may be.
func (w *Winding) tooWarm() string {
	t := w.Task
	limit := t.Limits.BathTemperature
	name := "limits.bath_temperature, " + celsius(limit)
	switch {
	case w.Job.Limits.BathTemperature > 0:
	case w.Job.Bath.HasJacket:
		name = celsius(limit) + ", 12 K above the jacket where no limit is given"
	default:
		name = celsius(limit) + ", the usual limit"
	}
	around, what := t.Room, "the room"
	if w.Job.Bath.HasJacket {
		around, what = t.Wall, "the jacket"
	}
	tell := func(what string, at quantity.Temperature, cooler string) string {
		return fmt.Sprintf("%s at %s, and the bath may not be as warm as %s: give a higher limits.bath_temperature, or %s", what, celsius(at), name, cooler)
	}
	switch {
	case t.MixedAt(0) >= limit && t.Room.IsConstant() && t.Room.At(0) >= limit: // and does not cool in its cup
		return tell("resin is mixed", t.MixedAt(0), "mix cooler resin")
	case around.IsConstant() && around.At(0) >= limit:
		return tell(what+" is", around.At(0), "a cooler one")
	}
	return ""
}

// overAtOnce tells why a fresh bath cannot be used, or not as long as the reserve.
func (w *Winding) overAtOnce(life vessel.Life, fresh vessel.State, at quantity.Time) string {
	t := w.Task
	switch {
	case life.Over() && life.EndsBy == vessel.TooThick:
		return fmt.Sprintf("resin has %s at %s when mixing ends, after %v, and never thins to limits.bath_viscosity, %s: warm it, give a higher limit, or take a thinner system",
			thickness(fresh.Viscosity(&t.Resin)), celsius(fresh.Temperature), t.Pots.Mixing, thickness(t.Limits.BathViscosity))
	case life.Over() && life.EndsBy == vessel.LaidViscosity:
		laid := fresh
		laid.Temperature = t.Limits.Mandrel.At(at)
		return fmt.Sprintf("resin has %s at the mandrel's %s when mixing ends, after %v, and limits.laid_viscosity is %s: warm the mandrel, give a higher limit, or take a thinner system",
			thickness(laid.Viscosity(&t.Resin)), celsius(laid.Temperature), t.Pots.Mixing, thickness(t.Limits.LaidViscosity))
	case life.Over() && life.EndsBy == vessel.BathTemperature:
		return fmt.Sprintf("resin has %s when mixing ends, after %v, more than the %s that a bath may have: check pots.mixing, mix cooler or smaller pots, or give a higher limits.bath_temperature",
			celsius(fresh.Temperature), t.Pots.Mixing, celsius(t.Limits.BathTemperature))
	case life.Over():
		return "" // by gel alone, which the pot has been asked about
	case life.Left < t.Reserve:
		return fmt.Sprintf("a fresh bath likely lasts %.0f min at most, less than limits.reserve, %v: give a lower reserve, another hardener or other temperatures",
			math.Floor(life.Left.In("min")), t.Reserve)
	}
	return ""
}

// thickness is a viscosity in whole mPa·s.
func thickness(v quantity.Viscosity) string { return quantity.Format(v, "mPa·s", 0) }
