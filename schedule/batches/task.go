package batches

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// A Task is a winding to be split into pots. Times are elapsed seconds from the
// start of the job, which is when the first pot is begun.
type Task struct {
	Resin  kinetics.Resin
	Mix    resins.Mix
	Spread ensemble.Spread

	Room, Wall vessel.Series                  // wall: the jacket's, or the room's
	ResinAt    quantity.Temperature           // of the parts before mixing; 0: the room's
	ResinShift quantity.TemperatureDifference // how much warmer than that
	Limits     vessel.Limits
	Reserve    quantity.Time // the least; see [Task.reserve]

	Bath  Bath
	Pots  Pots
	Pause quantity.Time // between layers
	Units []Unit
	Fibre quantity.HeatCapacity

	// A plan made in the middle of a day begins with what is there; the zero
	// values are an ordinary plan.
	Begin Beginning
	// Heel tells what a member has in the bath and on the mandrel at Begin. It is
	// called from many goroutines, once for every member that is followed; nil:
	// nothing is in either.
	Heel func(ensemble.Member) (Heel, error)
	// HeelAlone is Heel without when films gel, which is dear to tell and means nothing to who only
	// judges; nil: Heel.
	HeelAlone func(ensemble.Member) (Heel, error)

	// Drawn is the ensemble that judges, each of the same weight, where readings
	// have told more than the spread; nil: it is drawn from the spread.
	Drawn []ensemble.Member
	// Known is what those drawn come to; nil: the spread.
	Known *ensemble.Belief
}

// Bath is the vessel that the tow runs through.
type Bath struct {
	Vessel          vessel.Vessel
	Lowest, Highest quantity.Mass
	Change          quantity.Time // dump, wipe and fill
	Pour            quantity.Time // of one pot
}

// Pots are the cups in which resin is mixed.
type Pots struct {
	Smallest, Largest quantity.Mass
	Step              quantity.Mass // resolution of the scale
	Mixing            quantity.Time
	Warms             quantity.TemperatureDifference // by mixing: how much warmer than its parts resin is then
	Cup               vessel.Vessel
	LeftInCup         float64 // share of each pot that stays in its cup
	Helper            bool    // someone mixes while the machine winds
}

// A Unit is what is wound between two places where it could stop: a layer, or a
// circuit of one.
type Unit struct {
	Layer       int // index of the layer it belongs to
	EndsLayer   bool
	Circuits    int // of the layer that are wound when the unit ends
	Time        quantity.Time
	Resin       quantity.Mass // carried off the bath
	FibreWeight quantity.Mass
}

// HeelLimit is the share of the gel conversion beyond which a heel is no longer
// topped up: its aged resin would thicken the fresh.
const HeelLimit = 0.6

// ReserveShare is the share of the working life at the last pour that is kept
// unspent (common practice).
const ReserveShare = 0.2

// reserve is what must be left at every moment after a pour at which the bath
// had the working life given, in s.
func (t *Task) reserve(life float64) float64 {
	return max(float64(t.Reserve), ReserveShare*life)
}

// pauseAfter is the pause at the stop after n units, in s: between layers only,
// and what is left of one when the plan begins.
func (t *Task) pauseAfter(n int) float64 {
	if n == 0 {
		return float64(t.Begin.Pause)
	}
	if n == len(t.Units) || !t.Units[n-1].EndsLayer {
		return 0
	}
	return float64(t.Pause)
}

// carried is the resin carried off by the units from..to−1, in kg.
func (t *Task) carried(from, to int) float64 {
	sum := 0.0
	for _, u := range t.Units[from:to] {
		sum += float64(u.Resin)
	}
	return sum
}

// latest is a time by which every plan of the family has ended: all units wound,
// with a pause, a change and a bathful of pots mixed and poured at each, and the
// cups that stood poured too.
func (t *Task) latest() float64 {
	// A bathful is split into the fewest pots; rounding to the scale may add one.
	pots := math.Ceil(float64(t.Bath.Highest/t.Pots.Largest)/(1-t.Pots.LeftInCup)) + 1
	stop := float64(t.Pause+t.Bath.Change) + pots*float64(t.Pots.Mixing+t.Bath.Pour)
	end := float64(t.Begin.At+t.Begin.Pause) + stop + float64(len(t.Begin.Cups))*float64(t.Bath.Pour)
	for i := range t.Units {
		end += float64(t.Units[i].Time) + stop
	}
	return end
}

func (t *Task) tow(u *Unit) vessel.Tow {
	return vessel.Tow{
		DrawKgPerS:   float64(u.Resin) / float64(u.Time),
		FibreKgPerS:  float64(u.FibreWeight) / float64(u.Time),
		HeatCapacity: t.Fibre,
	}
}
