package replay

import (
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
)

// How a pot in its cup is followed to its end: nobody stirs it, and its hottest place
// decides. Five cells across find that end within 1 % (a test of package resins holds it) in half a
// millisecond; so many worlds, and what lies between them, tell its sure end.
const (
	cupCells  = 5
	cupWorlds = 40
)

// Where more pots stand than a crew has hands, fewer worlds follow each, so that all together take a
// second. The sure end is then that of the worst of eight.
const (
	fewestCupWorlds = 8
	cupsFollowed    = 1200 // pots times worlds
)

// cupWorlds is how many worlds follow a pot.
func (p *Played) cupWorlds() int {
	return min(cupWorlds, max(fewestCupWorlds, cupsFollowed/max(1, len(p.Script.Standing()))))
}

// A CupNow is a pot in its cup as some worlds that stand for all see it.
type CupNow struct {
	States []vessel.State // now: the hottest temperature, the most cured resin
	Left   []quantity.Time
	EndsBy []vessel.Limit

	cloud   *ensemble.Cloud
	worlds  []Weighed
	members []ensemble.Member // of the worlds
	weights []float64
}

// Cup follows a pot in its cup, from when it was mixed until its first limit: those of the
// bath.
func (p *Played) Cup(pot *Pot, horizon quantity.Time) (*CupNow, error) {
	return p.cup(pot, horizon, p.cupWorlds())
}

func (p *Played) cup(pot *Pot, horizon quantity.Time, worlds int) (*CupNow, error) {
	c := &CupNow{cloud: p.Cloud, worlds: p.Few(worlds)}
	for _, w := range c.worlds {
		m := w.Member
		m.Weight = w.Weight
		c.members = append(c.members, m)
	}
	n := len(c.worlds)
	c.States, c.Left = make([]vessel.State, n), make([]quantity.Time, n)
	c.EndsBy, c.weights = make([]vessel.Limit, n), make([]float64, n)
	return c, ensemble.Each(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		w := c.worlds[i]
		c.weights[i] = w.Weight
		var err error
		c.States[i], c.Left[i], c.EndsBy[i], err = w.cupLeft(pot, horizon)
		return err
	})
}

// Quantile of a value that each of the worlds has.
func (c *CupNow) Quantile(q float64, of func(i int) float64) float64 {
	values := make([]float64, len(c.worlds))
	for i := range values {
		values[i] = of(i)
	}
	return c.cloud.QuantileOf(c.members, q, values)
}

// Sure is how long the pot surely lasts in its cup.
func (c *CupNow) Sure() quantity.Time {
	return quantity.Time(c.Quantile(ensemble.SureQuantile, func(i int) float64 { return float64(c.Left[i]) }))
}

// TooOld tells whether the pot is beyond the degree of cure at which a heel is topped up, in the
// worst of ten worlds.
func (c *CupNow) TooOld() bool {
	return c.Quantile(1-ensemble.SureQuantile, func(i int) float64 { return c.States[i].Alpha / c.worlds[i].Gel() }) > batches.HeelLimit
}

// Viscosity is that of the pot in one of the worlds, +Inf when it has gelled.
func (c *CupNow) Viscosity(i int) quantity.Viscosity {
	return c.States[i].Viscosity(c.worlds[i].cup.Resin())
}

// Share of the worlds, by weight, for which something holds.
func (c *CupNow) Share(holds func(i int) bool) float64 {
	sum, total := 0.0, 0.0
	for i, w := range c.weights {
		if total += w; holds(i) {
			sum += w
		}
	}
	return sum / total
}

// cupLeft is the state of a pot in its cup, and how long it can still be used there.
func (w *World) cupLeft(p *Pot, horizon quantity.Time) (vessel.State, quantity.Time, vessel.Limit, error) {
	t, now := w.script.Task, w.script.Now
	pot, err := w.stillCup(p)
	if err != nil {
		return vessel.State{}, 0, vessel.NoLimit, err
	}
	fresh := vessel.State{Mass: p.Mass(), Temperature: w.mixedAt(p)}
	life, err := pot.Life(fresh, p.MixedAt, t.Limits, now-p.MixedAt+horizon)
	if err != nil {
		return vessel.State{}, 0, vessel.NoLimit, err
	}
	profile, err := pot.Uniform(fresh)
	if err != nil {
		return vessel.State{}, 0, vessel.NoLimit, err
	}
	if profile, err = pot.Advance(profile, p.MixedAt, min(now, p.MixedAt+settled)); err != nil {
		return vessel.State{}, 0, vessel.NoLimit, err
	}
	inside := profile.Foremost()
	inside.Mass, inside.Temperature = p.Mass(), profile.Hottest().Temperature
	return inside, max(0, p.MixedAt+life.Left-now), life.EndsBy, nil
}
