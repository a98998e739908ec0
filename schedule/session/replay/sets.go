package replay

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// Resin in a pot or a bath as it is now, and what becomes of it if nobody touches it.
type Resin struct {
	Hottest quantity.Temperature // now, in the worst of ten worlds
	Gelled  float64              // share of the worlds in which it has gelled
	Sets    quantity.Time        // from now until it gels or is too hot to touch, in the worst of ten worlds; +Inf: not within two days
	Peak    quantity.Temperature // to come, in one of ten worlds; of a pot it may be over
}

// untouched are the limits of resin that can still be handled.
func (s *Script) untouched(hot quantity.Temperature) vessel.Limits {
	const never quantity.Viscosity = 1e12 // Pa·s
	return vessel.Limits{BathViscosity: never, LaidViscosity: never, BathTemperature: hot, Mandrel: s.Task.Limits.Mandrel, Clean: vessel.Uncleaned}
}

// BathNow is how the resin in the bath is: its hottest place and its most cured.
func (p *Played) BathNow() (Resin, error) {
	if p.Worlds[0].lies.was.Mass <= 0 { // by what was logged, and so in all
		return p.stirredNow(), nil
	}
	few := p.Few(cupWorlds) // a slab is dear
	hot, gelled := make([]float64, len(few)), make([]float64, len(few))
	err := ensemble.Each(len(few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		w := few[i].World
		lies, from := w.lying()
		inside, err := w.stand.Inside(lies, from, min(p.Script.Now, from+settled))
		if hot[i] = float64(inside.Temperature); inside.Alpha >= w.Gel() {
			gelled[i] = 1
		}
		return err
	})
	if err != nil {
		return Resin{}, err
	}
	r, total := Resin{Hottest: quantity.Temperature(p.QuantileOf(few, 1-ensemble.SureQuantile, hot))}, 0.0
	for i, w := range few {
		total += w.Weight
		r.Gelled += w.Weight * gelled[i]
	}
	r.Gelled /= total
	return r, nil
}

// stirredNow is [Played.BathNow] of a bath that has one temperature.
func (p *Played) stirredNow() Resin {
	r := Resin{
		Hottest: quantity.Temperature(p.Quantile(1-ensemble.SureQuantile, func(w *World) float64 { return float64(w.Bath.Temperature) })),
	}
	gelled, total := 0.0, 0.0
	for i, w := range p.Worlds {
		weight := p.Cloud.Members[i].Weight
		if total += weight; w.Bath.Alpha >= w.Gel() {
			gelled += weight
		}
	}
	r.Gelled = gelled / total
	return r
}

// BathAhead adds what becomes of it; hot: above that nobody touches it.
func (p *Played) BathAhead(r *Resin, hot quantity.Temperature) error {
	few := p.Few(cupWorlds)
	sets := make([]float64, len(few))
	limits, now := p.Script.untouched(hot), p.Script.Now
	err := ensemble.Each(len(few), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		w := few[i].World
		lies, from := w.lying()
		life, err := w.stand.Life(lies, from, limits, now-from+lifeHorizon)
		sets[i] = float64(max(0, min(life.Left-(now-from), lifeHorizon)))
		return err
	})
	if err != nil {
		return err
	}
	r.Sets = beyond(p.QuantileOf(few, ensemble.SureQuantile, sets))
	peak, err := p.peak(func(m ensemble.Member) (quantity.Temperature, error) {
		w, err := p.Script.World(m)
		if err != nil {
			return 0, err
		}
		lies, from := w.lying()
		ahead, err := w.stand.Milestones(lies, from, now-from+lifeHorizon)
		return ahead.Peak, err
	})
	r.Peak = max(peak, r.Hottest)
	return err
}

// peakStep is how far the members are apart, in the logarithm, of whose peaks the slope is a regression:
// peaks a few percent of a rate apart differ by more than steps err.
const peakStep = 0.05

// peak is that of one in ten worlds, where of is a world's.
func (p *Played) peak(of func(ensemble.Member) (quantity.Temperature, error)) (quantity.Temperature, error) {
	known := p.Cloud.Belief().OfHeat()
	slope, err := known.Slope(known.Worst(OneInTen, ensemble.MoreHeat), peakStep, ensemble.MoreHeat, func(m ensemble.Member) (float64, error) {
		peak, err := of(m)
		return float64(peak), err
	})
	if err != nil {
		return 0, err
	}
	return of(known.Worst(OneInTen, slope))
}

// beyond is +Inf for what was followed to the horizon.
func beyond(seconds float64) quantity.Time {
	if seconds >= float64(lifeHorizon)-1 {
		seconds = math.Inf(1)
	}
	return quantity.Time(seconds)
}

// OneInTen is how many standard deviations on the bad side one in ten is.
const OneInTen = 1.2816

// Resin is how that of the pot is, its hottest place and its most cured.
func (c *CupNow) Resin() Resin {
	return Resin{
		Hottest: quantity.Temperature(c.Quantile(1-ensemble.SureQuantile, func(i int) float64 { return float64(c.States[i].Temperature) })),
		Gelled:  c.Share(func(i int) bool { return c.States[i].Alpha >= c.worlds[i].Gel() }),
	}
}

// PotAhead adds what becomes of a pot in its cup; hot: above that nobody touches it.
func (p *Played) PotAhead(r *Resin, pot *Pot, is *CupNow, hot quantity.Temperature) error {
	s := p.Script
	sets := make([]float64, len(is.worlds))
	limits := s.untouched(hot)
	err := ensemble.Each(len(sets), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		body, err := is.worlds[i].stillCup(pot)
		if err != nil {
			return err
		}
		fresh := vessel.State{Mass: pot.Mass(), Temperature: is.worlds[i].mixedAt(pot)}
		life, err := body.Life(fresh, pot.MixedAt, limits, s.Now-pot.MixedAt+lifeHorizon)
		sets[i] = math.Min(float64(lifeHorizon), math.Max(0, float64(pot.MixedAt+life.Left-s.Now)))
		return err
	})
	if err != nil {
		return err
	}
	r.Sets = beyond(is.Quantile(ensemble.SureQuantile, func(i int) float64 { return sets[i] }))
	r.Peak, err = p.peak(func(m ensemble.Member) (quantity.Temperature, error) {
		as := s.unplayed(m)
		body, err := as.stillCup(pot)
		if err != nil {
			return 0, err
		}
		fresh := vessel.State{Mass: pot.Mass(), Temperature: as.mixedAt(pot)}
		ahead, err := body.Milestones(fresh, pot.MixedAt, lifeHorizon)
		return ahead.Peak, err
	})
	return err
}

// stillCup is the body of a pot in its cup, in this world.
func (w *World) stillCup(p *Pot) (*still.Pot, error) {
	t := w.script.Task
	precision := still.Working
	precision.Cells, precision.From = cupCells, w.mixedAt(p)
	return still.New(*w.cup.Resin(), still.CupOf(t.Pots.Cup.LossesTimes(w.Member.Loss), p.Mass()), t.Room, t.Room, precision)
}
