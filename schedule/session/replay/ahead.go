package replay

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule/batches"
)

// Ahead is a world followed beyond now, to see what would become of it.
type Ahead struct {
	w       *World
	of      *World        // that it is followed from
	reserve quantity.Time // asked of the bath since it was poured into; NaN: it was not
	thins   quantity.Time // see ThinsIn
	givenUp bool
}

// Ahead begins at now. The world must not be used while it is followed.
func (w *World) Ahead() *Ahead {
	return &Ahead{w: w.fork(), of: w, reserve: quantity.Time(math.NaN())}
}

// Now is the moment reached.
func (a *Ahead) Now() quantity.Time { return quantity.Time(a.w.now) }

// Reserve is what the bath must have left, by its life at the last pour.
func (a *Ahead) Reserve() (quantity.Time, error) {
	if math.IsNaN(float64(a.reserve)) {
		life, err := a.of.Life()
		if err != nil {
			return 0, err
		}
		a.reserve = a.w.script.Task.ReserveOf(life)
	}
	return a.reserve, nil
}

// Ended tells whether the bath has passed a limit or cannot be wound from: it is empty, or
// too thick from mixing.
func (a *Ahead) Ended() bool {
	return a.givenUp || a.w.Bath.Mass <= 0 || a.w.Over != vessel.NoLimit || a.w.watch.TooThick()
}

// GiveUp makes the bath one that cannot be wound from.
func (a *Ahead) GiveUp() { a.givenUp = true }

// ThinsIn is how long the bath stays too thick by what [Ahead.Left] last found.
func (a *Ahead) ThinsIn() quantity.Time { return a.thins }

// Stand lets the bath stand, without a tow, until a moment.
func (a *Ahead) Stand(until quantity.Time) error {
	a.w.tow = vessel.Tow{}
	return a.w.pass(math.Max(a.w.now, float64(until)), true)
}

// Wind winds a unit.
func (a *Ahead) Wind(p batches.Unit) error {
	if p.Time <= 0 {
		return nil
	}
	a.w.tow = vessel.Tow{
		DrawKgPerS: float64(p.Resin) / float64(p.Time), FibreKgPerS: float64(p.FibreWeight) / float64(p.Time), HeatCapacity: a.w.script.Task.Fibre,
	}
	err := a.w.pass(a.w.now+float64(p.Time), true)
	a.w.tow = vessel.Tow{}
	return err
}

// Dump empties and wipes the bath.
func (a *Ahead) Dump() {
	a.w.Bath, a.w.lies, a.w.Over = vessel.State{}, lying{}, vessel.NoLimit
	a.w.watch.Fresh()
}

// Left is the working life of the bath from the moment reached on if the tow stands, as far
// as the horizon, and what ends it.
func (a *Ahead) Left(horizon quantity.Time) (quantity.Time, vessel.Limit, error) {
	if a.w.Over != vessel.NoLimit {
		return 0, a.w.Over, nil
	}
	if a.w.Bath.Mass <= 0 {
		return 0, vessel.NoLimit, nil
	}
	return a.leftBy(horizon, false)
}

// Exactly is [Ahead.Left] of the slab itself, where resin lies still: Left is quicker, and up to
// [still.StandShort] short.
func (a *Ahead) Exactly(horizon quantity.Time) (quantity.Time, vessel.Limit, error) {
	if a.w.Over != vessel.NoLimit || a.w.Bath.Mass <= 0 {
		return 0, a.w.Over, nil
	}
	return a.leftBy(horizon, true)
}

func (a *Ahead) leftBy(horizon quantity.Time, exact bool) (quantity.Time, vessel.Limit, error) {
	life, err := a.w.left(horizon, exact)
	a.thins = life.TooThickFor
	return min(life.Left, horizon), life.EndsBy, err
}

// LeftWinding is the working life from the moment reached on if the tow winds the unit and
// stands then.
func (a *Ahead) LeftWinding(p batches.Unit, horizon quantity.Time) (quantity.Time, vessel.Limit, error) {
	if a.w.Over != vessel.NoLimit || a.w.Bath.Mass <= 0 {
		return 0, a.w.Over, nil
	}
	from := a.Now()
	if err := a.Wind(p); err != nil {
		return 0, vessel.NoLimit, err
	}
	if a.w.Over != vessel.NoLimit {
		if a.w.Over == vessel.TooThick { // its life never began
			return 0, a.w.Over, nil
		}
		return max(0, a.w.OverAt-from), a.w.Over, nil
	}
	left, by, err := a.Left(max(0, horizon-p.Time))
	if by == vessel.TooThick { // it was from mixing, and still is
		return 0, by, err
	}
	return left + a.Now() - from, by, err
}

// Pour pours cups that stand, and fresh pots whose mixing begins at the times given, and
// asks the bath for a reserve by its new life.
func (a *Ahead) Pour(cups []Pot, fresh []resins.Pot, mixedAt []quantity.Time) error {
	w := a.w
	pots := cups
	for i := range fresh {
		pots = append(pots[:len(pots):len(pots)], Pot{MixedAt: mixedAt[i], Pot: fresh[i]})
	}
	for i := range pots {
		poured, err := w.InCup(&pots[i], a.Now())
		if err != nil {
			return err
		}
		poured.Mass *= quantity.Mass(1 - w.script.Task.Pots.LeftInCup)
		w.Bath, w.lies = vessel.Pour(w.bath.Resin(), w.Bath, poured), lying{}
	}
	w.floor = min(w.Bath.Mass, floorShare*w.script.Task.Bath.Lowest)
	life, _, err := a.Left(lifeHorizon)
	if err != nil {
		return err
	}
	a.reserve = w.script.Task.ReserveOf(life)
	return w.look()
}

// TooOld tells that the bath is beyond the degree of cure at which it may be topped up.
func (a *Ahead) TooOld(limit float64) bool {
	return a.w.Bath.Alpha > limit*a.w.bath.Resin().Gel
}

// Gel is the degree of cure at which the resin gels.
func (w *World) Gel() float64 { return w.bath.Resin().Gel }

// Viscosity of the bath now; +Inf when it has gelled.
func (w *World) Viscosity() quantity.Viscosity { return w.Bath.Viscosity(w.bath.Resin()) }

// LayerGels is when the resin of a layer begun, its first or its last, first gels.
func (w *World) LayerGels(film *vessel.Film, index int) (quantity.Time, error) {
	l := &w.script.Layers[index]
	last := w.script.Now
	if l.Done {
		last = l.DoneAt
	}
	first, err := film.GelAt(w.Laid[index].First, l.Begun)
	if err != nil {
		return first, err
	}
	end, err := film.GelAt(w.Laid[index].Last, last)
	return min(first, end), err
}

// Film is the mandrel on which this world's resin ages.
func (w *World) Film() *vessel.Film {
	return vessel.NewFilm(*w.bath.Resin(), w.script.Task.Limits.Mandrel)
}

// CleanUntil is the elapsed time at which the bath must be cleaned, whatever else may end it, if
// it stays as warm as it is; +Inf: not within a week.
func (w *World) CleanUntil() (quantity.Time, error) {
	now := w.script.Now
	switch clean := w.script.Task.Limits.Clean; clean {
	case 0:
	case vessel.Uncleaned:
		return quantity.Time(math.Inf(1)), nil
	default:
		return now - w.Bath.Used + quantity.Time(clean), nil
	}
	film := vessel.NewFilm(*w.bath.Resin(), vessel.Constant(w.Bath.Temperature))
	return film.GelAt(math.Max(w.Bath.Stuck, w.Bath.Alpha), now)
}
