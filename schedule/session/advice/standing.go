package advice

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session/replay"
)

// A Cup is a pot that was mixed and not yet poured: its hottest place, which decides.
type Cup struct {
	replay.Pot
	Age            quantity.Time
	Temperature    quantity.Temperature
	Viscosity      quantity.Viscosity
	Alpha          float64
	Left, LeftSure quantity.Time // in the cup, until its first limit
	EndsBy         vessel.Limit
	OffRatio       float64 // of its hardener, relative, beyond the job's tolerance; 0: within it
	is             *replay.CupNow
	Usable         bool // at its ratio, surely for as long as pouring takes, and no older than a heel may be
}

// A Film is the resin of a layer that lies on the mandrel.
type Film struct {
	Layer int           // from 0
	Gels  quantity.Time // elapsed, its first resin, in the likely world; +Inf: not within a week
}

// standing looks at the pots in their cups.
func (n *now) standing() error {
	for _, pot := range n.script.Standing() {
		in, err := n.played.Cup(&pot, horizon)
		if err != nil {
			return err
		}
		likely := func(value func(i int) float64) float64 { return in.Quantile(ensemble.LikelyQuantile, value) }
		cup := Cup{
			Pot: pot, is: in, Age: n.script.Now - pot.MixedAt, OffRatio: n.script.OffRatio(&pot),
			Temperature: quantity.Temperature(likely(func(i int) float64 { return float64(in.States[i].Temperature) })),
			Viscosity:   quantity.Viscosity(likely(func(i int) float64 { return float64(in.Viscosity(i)) })),
			Alpha:       likely(func(i int) float64 { return in.States[i].Alpha }),
			Left:        unbounded(quantity.Time(likely(func(i int) float64 { return float64(in.Left[i]) }))),
			LeftSure:    unbounded(in.Sure()),
			EndsBy: mostOften(func(l vessel.Limit) float64 {
				return in.Share(func(i int) bool { return in.EndsBy[i] == l })
			}),
		}
		cup.Usable = cup.OffRatio == 0 && cup.LeftSure > n.script.Task.Bath.Pour && !in.TooOld()
		if cup.Usable {
			n.cups = append(n.cups, pot)
		}
		n.answer.Cups = append(n.answer.Cups, cup)
	}
	return nil
}

// dry tells whether the bath is down to its lowest by reckoning. A pot that stands mixed does not
// change that before it is poured.
func (n *now) dry() bool {
	return n.answer.Filled && n.mass() <= n.script.Task.Bath.Lowest*(1-shortage)
}

// films tells when each layer gels, as the likely world lays them.
func (n *now) films() error {
	if len(n.script.Layers) == 0 {
		return nil
	}
	best, err := n.played.Best()
	if err != nil {
		return err
	}
	film := best.Film()
	for i := range best.Laid {
		gels, err := best.LayerGels(film, i)
		if err != nil {
			return err
		}
		n.answer.Films = append(n.answer.Films, Film{Layer: i, Gels: gels})
	}
	return nil
}

// unset is a moment that there is not.
var unset = quantity.Time(math.NaN())
