package advice

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// A Cup is a pot that was mixed and not yet poured.
type Cup struct {
	replay.Pot
	Age            quantity.Time
	Temperature    quantity.Temperature
	Viscosity      quantity.Viscosity
	Alpha          float64
	Left, LeftSure quantity.Time // in the cup, until its first limit
	EndsBy         vessel.Limit
	Usable         bool // surely, for as long as pouring takes, and no older than a heel may be
}

// A Film is the resin of a layer that lies on the mandrel.
type Film struct {
	Layer int           // from 0
	Gels  quantity.Time // elapsed, its first resin, in the likely world; +Inf: not within a week
}

// standing looks at the pots in their cups.
func (n *now) standing() error {
	unique := n.played.Unique()
	for _, pot := range n.script.Standing() {
		type end struct {
			state vessel.State
			left  quantity.Time
			by    vessel.Limit
		}
		ends := make([]end, len(unique))
		err := ensemble.Each(len(unique), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
			e := &ends[i]
			var err error
			e.state, e.left, e.by, err = unique[i].CupLeft(&pot, horizon)
			return err
		})
		if err != nil {
			return err
		}
		of := map[*replay.World]*end{}
		for i, w := range unique {
			of[w] = &ends[i]
		}
		likely := func(value func(*replay.World) float64) float64 { return n.played.Likely(value) }
		left := func(w *replay.World) float64 { return float64(of[w].left) }
		cup := Cup{
			Pot: pot, Age: n.script.Now - pot.MixedAt,
			Temperature: quantity.Temperature(likely(func(w *replay.World) float64 { return float64(of[w].state.Temperature) })),
			Viscosity:   quantity.Viscosity(likely(func(w *replay.World) float64 { return float64(w.CupViscosity(of[w].state)) })),
			Alpha:       likely(func(w *replay.World) float64 { return of[w].state.Alpha }),
			Left:        unbounded(quantity.Time(likely(left))),
			LeftSure:    unbounded(quantity.Time(n.played.Quantile(ensemble.SureQuantile, left))),
			EndsBy:      n.mostOften(func(w *replay.World) vessel.Limit { return of[w].by }),
		}
		tooOld := func(w *replay.World) float64 { return of[w].state.Alpha / w.Gel() }
		cup.Usable = cup.LeftSure > n.script.Task.Bath.Pour && n.played.Quantile(1-ensemble.SureQuantile, tooOld) <= batches.HeelLimit
		if cup.Usable {
			n.cups = append(n.cups, pot)
		}
		n.answer.Cups = append(n.answer.Cups, cup)
	}
	return nil
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
