package replay

import (
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
)

// A World is the day as one member of the ensemble lives it. It holds buffers: one
// goroutine at a time.
type World struct {
	Member ensemble.Member
	Bath   vessel.State // now; Mass 0: empty
	Over   vessel.Limit // that ended the bath's life; none: it still lives
	OverAt quantity.Time
	Dry    quantity.Time // when this bath fell to its floor by reckoning, +Inf: it did not since it was weighed
	Low    quantity.Time // when this bath was drawn down to its lowest by reckoning, +Inf: it is not
	Laid   []Laid        // what the layers begun are laid with
	// Hardener is the share of hardener in the bath by mass, of the pots as they were weighed. A
	// tow takes both parts alike, so only a pour moves it.
	Hardener float64

	script *Script
	bath   *vessel.Bath
	stand  *still.Stand // the bath while the tow stands
	cup    *vessel.Bath
	watch  *vessel.Watch
	now    float64
	tow    vessel.Tow
	lies   lying // of the bath, what is not stirred
	floor  quantity.Mass
	layer  int       // in hand, from 0; -1: none
	says   []float64 // what it says to each reading that is no spare one: K or ln η
	spare  *spares   // nil: it is not asked about those

	poured   vessel.State // the bath just after its last pour
	pouredAt quantity.Time
	life     quantity.Time // see Life; NaN: not asked for yet
}

// Laid is the resin of a layer: its degree of cure as the layer began and as it ended, or
// now.
type Laid struct {
	First, Last float64
	Off         float64 // greatest relative error of the hardener in what it is wound with, see [Script.OffRatio]
}

// floorShare is how far below its lowest mass a bath is followed: whoever wets a tow has
// resin in the bath, whatever the reckoning says.
const floorShare = 0.5

// AllButEmpty tells whether the bath is down to where it is followed no further. It is
// reckoned to hold the same in every world.
func (p *Played) AllButEmpty() bool {
	const rounding quantity.Mass = 1e-6
	return p.Script.Filled() && p.Worlds[0].Bath.Mass <= floorShare*p.Script.Task.Bath.Lowest+rounding
}

// precision is the working one, with a first step to try that takes most stretches between
// two events at once: a third less to compute than in steps of a minute.
func precision() vessel.Precision {
	p := vessel.Working
	p.FirstStep = 600
	return p
}

// scrapedOut is what is left in a bath that was weighed as empty and not logged as changed:
// a film on its walls, by which it still has a temperature.
const scrapedOut quantity.Mass = 1e-4

// lifeHorizon is as far as a life is followed: two days, as plans do.
const lifeHorizon quantity.Time = 48 * 3600

// World plays the script with a member.
func (s *Script) World(m ensemble.Member) (*World, error) { return s.world(m, 0) }

// recent plays only the baths that the readings are weighed in and that of now. The layers
// laid before are not known to it.
func (s *Script) recent(m ensemble.Member) (*World, error) { return s.world(m, s.weighFrom) }

// unplayed is a world before the first step.
func (s *Script) unplayed(m ensemble.Member) *World {
	t := s.Task
	resin := t.Resin.Adjusted(m.Rate, m.Viscosity)
	w := &World{
		Member: m, script: s, Dry: quantity.Time(math.Inf(1)), Low: quantity.Time(math.Inf(1)), life: quantity.Time(math.NaN()),
		bath: vessel.New(resin, t.Bath.Vessel.LossesTimes(m.Loss), t.Room, t.Wall, precision()).Sticking(t.Limits),
		cup:  vessel.New(resin, t.Pots.Cup.LossesTimes(m.Loss), t.Room, t.Room, precision()),
		says: make([]float64, s.slots), Laid: make([]Laid, len(s.Layers)), layer: -1,
	}
	w.stand = still.StandOf(w.bath)
	w.watch = vessel.NewWatch(w.bath, t.Limits)
	for i := range w.Laid {
		w.Laid[i] = Laid{First: math.NaN(), Last: math.NaN()}
	}
	return w
}

func (s *Script) world(m ensemble.Member, from int) (*World, error) {
	w := s.unplayed(m)
	for i := range s.steps[:from] {
		if s.steps[i].do == runTow {
			w.tow = s.steps[i].tow // it may have been started before the bath was filled
		}
	}
	for i := from; i < len(s.steps); i++ {
		if err := w.take(i); err != nil {
			return nil, err
		}
	}
	if err := w.pass(float64(s.Now), s.watchFrom >= 0); err != nil {
		return nil, err
	}
	if s.watchFrom >= 0 {
		if err := w.look(); err != nil {
			return nil, err
		}
	}
	if l := s.InHand(); l != nil {
		w.Laid[l.Index].Last = w.Bath.Alpha
	}
	return w, nil
}

// take lets the bath stand or wind until step i and does it.
func (w *World) take(i int) error {
	st := &w.script.steps[i]
	watched := w.script.watchFrom >= 0 && i > w.script.watchFrom
	if err := w.pass(st.at, watched); err != nil {
		return err
	}
	switch st.do {
	case pour:
		return w.pour(i)
	case empty:
		w.Bath, w.lies = vessel.State{}, lying{}
	case weighed:
		if w.Bath.Mass > 0 { // else it is what was dumped before
			defer w.lower()
			w.Bath.Mass, w.Dry = max(st.mass, scrapedOut), quantity.Time(math.Inf(1))
			w.floor = min(w.Bath.Mass, floorShare*w.script.Task.Bath.Lowest)
		}
	case taken:
		defer w.lower()
		if w.Bath.Mass -= st.mass; w.Bath.Mass < w.floor {
			w.Bath.Mass, w.Dry = w.floor, min(w.Dry, quantity.Time(w.now))
		}
	case runTow:
		w.tow = st.tow
	case read:
		r := &w.script.Readings[st.index]
		w.says[r.slot] = float64(w.Bath.Temperature)
		if r.Viscous {
			w.says[r.slot] = w.logViscosity()
		}
		if r.Seq == w.script.outranks {
			w.Bath.Temperature = max(w.Bath.Temperature, r.Temperature)
			w.lies = lying{}
		}
	case begun:
		w.Laid[st.index] = Laid{First: w.Bath.Alpha, Last: w.Bath.Alpha}
		w.layer = st.index
		w.ratioOfLayer()
	case finished:
		w.Laid[st.index].Last = w.Bath.Alpha
		w.layer = -1
	}
	return nil
}

// lower notes whether the bath is down to its lowest now.
func (w *World) lower() {
	switch {
	case w.Bath.Mass > w.script.Task.Bath.Lowest:
		w.Low = quantity.Time(math.Inf(1))
	case math.IsInf(float64(w.Low), 1):
		w.Low = quantity.Time(w.now)
	}
}

func (w *World) logViscosity() float64 { return w.logViscosityOf(w.Bath) }

func (w *World) logViscosityOf(s vessel.State) float64 {
	if s.Alpha >= w.bath.Resin().Gel {
		return math.Inf(1)
	}
	return s.LogViscosity(w.bath.Resin())
}

// pour empties a cup into the bath.
func (w *World) pour(i int) error {
	s := w.script
	fresh, err := w.InCup(&s.Pots[s.steps[i].index], quantity.Time(w.now))
	if err != nil {
		return err
	}
	fresh.Mass *= quantity.Mass(1 - s.Task.Pots.LeftInCup)
	pot := &s.Pots[s.steps[i].index]
	w.Hardener = float64((quantity.Mass(w.Hardener)*w.Bath.Mass + fresh.Mass*pot.Hardener/pot.Mass()) / (w.Bath.Mass + fresh.Mass))
	w.Bath, w.lies = vessel.Pour(w.bath.Resin(), w.Bath, fresh), lying{}
	w.ratioOfLayer()
	w.Low = quantity.Time(math.Inf(1))
	w.lower()
	w.floor = min(w.Bath.Mass, floorShare*s.Task.Bath.Lowest)
	if i == s.watchFrom {
		w.watch.Fresh()
		w.Over, w.Dry = vessel.NoLimit, quantity.Time(math.Inf(1))
	}
	w.poured, w.pouredAt = w.Bath, quantity.Time(w.now)
	return nil
}

// ratioOfLayer notes for the layer in hand by how much the bath is off its ratio.
func (w *World) ratioOfLayer() {
	if w.layer < 0 {
		return
	}
	if off := w.OffRatio(); math.Abs(off) > math.Abs(w.Laid[w.layer].Off) {
		w.Laid[w.layer].Off = off
	}
}

// Life is the working life that the bath had, standing, at its last pour; 0 if there was
// none. It is followed only when it is asked for, since most members only weigh readings.
func (w *World) Life() (quantity.Time, error) {
	if w.poured.Mass <= 0 {
		return 0, nil
	}
	if math.IsNaN(float64(w.life)) {
		life, err := w.stand.Life(w.poured, w.pouredAt, w.script.Task.Limits, lifeHorizon)
		if err != nil {
			return 0, err
		}
		w.life = min(life.Left, lifeHorizon)
	}
	return w.life, nil
}

// InCup is a pot at a moment in its cup, all of it.
func (w *World) InCup(p *Pot, at quantity.Time) (vessel.State, error) {
	fresh := vessel.State{Mass: p.Mass(), Temperature: w.mixedAt(p)}
	return w.cup.Advance(fresh, p.MixedAt, min(at, p.MixedAt+settled), vessel.Tow{})
}

// settled is after how long resin that nothing happens to is followed no further: it has set, or
// takes years. A session may be asked years after its last event.
const settled quantity.Time = 14 * 24 * 3600

// pass lets time go by; watched: the limits count.
func (w *World) pass(until float64, watched bool) error {
	for last := math.Min(until, w.now+float64(settled)); w.now < last; {
		if w.Bath.Mass <= 0 {
			w.now = until
			break
		}
		end, tow := last, w.tow
		if tow.DrawKgPerS > 0 {
			above := float64(w.Bath.Mass - w.floor)
			if above <= 1e-9 {
				tow.DrawKgPerS = 0
				w.Dry = min(w.Dry, quantity.Time(w.now))
			} else {
				end = math.Min(end, w.now+above/tow.DrawKgPerS)
			}
		}
		if err := w.follow(end, tow, watched); err != nil {
			return err
		}
	}
	w.now = until
	return nil
}

func (w *World) follow(end float64, tow vessel.Tow, watched bool) error {
	reached := quantity.Time(w.now)
	w.layDown(tow)
	var err error
	if w.spare != nil {
		w.Bath, err = w.spare.advance(w, end, tow)
		reached = quantity.Time(end)
	} else if watched && !w.watch.Ended() {
		w.Bath, reached, err = w.watch.Advance(w.Bath, reached, quantity.Time(end), tow)
		if w.watch.Ended() && w.Over == vessel.NoLimit {
			w.Over, w.OverAt = w.watch.End()
		}
		if err == nil {
			err = w.lyingEnds(quantity.Time(end))
		}
	}
	if err == nil && float64(reached) < end {
		w.Bath, err = w.bath.Advance(w.Bath, reached, quantity.Time(end), tow)
	}
	if low := w.script.Task.Bath.Lowest; tow.DrawKgPerS > 0 && w.Bath.Mass <= low {
		w.Low = min(w.Low, quantity.Time(end-float64(low-w.Bath.Mass)/tow.DrawKgPerS))
	}
	w.now = end
	return err
}

// look lets the watch see the bath as it is, where no time has gone by since a pour.
func (w *World) look() error {
	if w.Bath.Mass <= 0 || w.watch.Ended() {
		return nil
	}
	now := quantity.Time(w.now)
	_, _, err := w.watch.Advance(w.Bath, now, now, vessel.Tow{})
	if w.watch.Ended() {
		w.Over, w.OverAt = w.watch.End()
	}
	return err
}

// TooThick tells that the bath has been above its viscosity limit since it was mixed.
func (w *World) TooThick() bool { return w.watch.TooThick() }

// fork is the world from here on, to be tried out: it shares the buffers, so that only one
// of both may be followed at a time.
func (w *World) fork() *World {
	f := *w
	watch := *w.watch
	f.watch = &watch
	f.Laid = nil
	return &f
}
