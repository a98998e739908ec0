package schedule

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// A Danger is what becomes of resin that is left alone in a vessel: nobody stirs it
// and nobody pours it. Masses are those that 99 of 100 baths like it bear.
type Danger struct {
	Mass quantity.Mass // asked about
	// Safe is the greatest mass that cannot run away there, +Inf where none can; see
	// [still.RunawayRise].
	Safe quantity.Mass
	// SafeUndepleted is the same if the resin never burnt off.
	SafeUndepleted quantity.Mass
	// In is how long the mass can be left as it stands: until its hottest place passes the
	// bath's limit of temperature or is as hot as resin that runs away, or until gel,
	// whichever is first, in the worst 1 of 10 baths like it. Only set where it runs away.
	In quantity.Time
	// How else the mass is safe: spread no deeper than Depth, in a square tray of this
	// Side or larger, or split into so many Vessels like it; 0 Vessels where they would
	// be too many. Only set where it runs away.
	Depth   quantity.Length
	Side    quantity.Length
	Vessels int
}

// Runs tells whether the mass asked about can run away.
func (d *Danger) Runs() bool { return d.Mass > d.Safe }

// forgotten is resin that may be left alone, and where.
type forgotten struct {
	resin      kinetics.Resin
	known      ensemble.Belief
	limit      quantity.Temperature // of the bath
	in         resins.Container
	jacketed   bool
	room, wall quantity.Temperature
	from       func(ensemble.Member) quantity.Temperature // of a member's resin when mixed
}

// inTen is how many standard deviations on the bad side the worst of ten baths is, by which minutes
// are counted.
const inTen = 1.2816

// perKelvin is how much sooner resin that is left alone ends per kelvin that it was mixed warmer, at
// most: 10 % in a cup of a quick system.
const perKelvin = 0.1

// danger is the question of what runs away of a member's resin.
func (f *forgotten) danger(m ensemble.Member, body func(quantity.Mass) still.Body, highest quantity.Mass, wall quantity.Temperature) *still.Danger {
	return &still.Danger{
		Resin: f.resin.Adjusted(m.Rate, 1), Body: body,
		Room: f.room, Wall: wall, From: f.from(m), Highest: highest, Precision: still.Searching,
	}
}

// deepest is how deep, in widths of its surface, a vessel is looked at, and a metre at
// most: what is deeper changes nothing in its middle. The search begins at a
// four-thousandth of that, which must still be thin.
const (
	deepest     = 3
	deepestEver = 1.0 // m
)

// there is the question of the vessel that the resin is in.
func (f *forgotten) there() among {
	area := f.in.Vessel(f.jacketed).AreaM2
	highest := quantity.Mass(area * math.Min(deepest*math.Sqrt(area), deepestEver) * float64(f.resin.Density))
	return among{f.known.OfHeat(), func(m ensemble.Member) *still.Danger {
		return f.danger(m, func(mass quantity.Mass) still.Body { return f.in.Body(mass, m.Loss, f.jacketed) }, highest, f.wall)
	}}
}

// usuallyUndepleted is about what burn-off leaves of a safe mass if it is not counted: epoxies in eight
// vessels have 0.65 to 0.76.
const usuallyUndepleted = 0.7

// safe returns the greatest masses that cannot run away, with burn-off and without.
func (f *forgotten) safe() (counted, undepleted quantity.Mass, err error) {
	there := f.there()
	counted, worst, err := there.greatestSafe()
	if err != nil {
		return 0, 0, err
	}
	d := there.of(worst)
	d.Undepleted = true
	if counted > 0 && !math.IsInf(float64(counted), 1) { // what runs away though it burns off does so without
		d.Runs = counted * (1 + still.SafeWithin)
		d.Near = counted * usuallyUndepleted
	}
	undepleted, err = d.GreatestSafe()
	return counted, undepleted, err
}

// runs tells whether a mass can run away there.
func (f *forgotten) runs(mass quantity.Mass) (bool, error) { return f.there().runsAway(mass) }

// lasts is how long a mass can be left there, see [Danger].In.
func (f *forgotten) lasts(mass quantity.Mass) (quantity.Time, error) {
	room, wall := vessel.Constant(f.room), vessel.Constant(f.wall)
	known := f.known.OfHeat()
	tenth := known.Warmer(known.Worst(inTen, ensemble.ShorterLife), inTen, perKelvin, ensemble.ShorterLife)
	from := f.from(tenth)
	pot, err := still.New(f.resin.Adjusted(tenth.Rate, 1), f.in.Body(mass, tenth.Loss, f.jacketed), room, wall, f.in.Grid(lifeCells, from))
	if err != nil {
		return 0, err
	}
	hot := max(f.room, f.wall, from) + quantity.Temperature(still.RunawayRise)
	if f.limit > 0 {
		hot = min(hot, f.limit)
	}
	if from >= hot {
		return 0, nil
	}
	times, err := pot.TimesTo([]vessel.EndPoint{{Gel: true}, {Temperature: hot}}, vessel.State{Temperature: from}, 0, WorktimeHorizon)
	if err != nil {
		return 0, err
	}
	return min(times[0], times[1]), nil
}

// side is that of a square tray in which a mass lies no deeper.
func (f *forgotten) side(mass quantity.Mass, depth quantity.Length) quantity.Length {
	return quantity.Length(math.Sqrt(float64(mass) / (float64(f.resin.Density) * float64(depth))))
}

// spread is how deep resin may lie in a wide tray on a bench.
func (f *forgotten) spread() (quantity.Length, error) {
	const halfMetre = 0.5
	wide := func(m ensemble.Member) vessel.Vessel {
		return resins.Container{Length: 1, Width: 1, StandsOn: usualFloor}.Vessel(false).LossesTimes(m.Loss)
	}
	onBench := among{f.known.OfHeat(), func(m ensemble.Member) *still.Danger {
		return f.danger(m, func(mass quantity.Mass) still.Body { return still.Tray{Vessel: wide(m), Mass: mass} },
			quantity.Mass(halfMetre*float64(f.resin.Density)), f.room)
	}}
	mass, _, err := onBench.greatestSafe()
	return wide(ensemble.Nominal()).Depth(mass, f.resin.Density), err
}

// mostVessels is how many a crew would split a mass into.
const mostVessels = 8

// of judges a mass.
func (f *forgotten) of(mass quantity.Mass) (*Danger, error) {
	d := &Danger{Mass: mass}
	if mass <= 0 {
		return d, nil
	}
	var err error
	if d.Safe, d.SafeUndepleted, err = f.safe(); err != nil || !d.Runs() {
		return d, err
	}
	if d.In, err = f.lasts(mass); err != nil {
		return nil, err
	}
	if d.Depth, err = f.spread(); err != nil {
		return nil, err
	}
	d.Side = f.side(mass, d.Depth)
	if n := math.Ceil(float64(mass / d.Safe)); n <= mostVessels {
		d.Vessels = int(n)
	}
	return d, nil
}
