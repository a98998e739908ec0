package replay

import (
	"math"
	"slices"
	"sync"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/winding"
)

// Rest is what is still to be wound, at the pace of the day: the units of the job without
// those that are wound, the first of them perhaps begun.
func (s *Script) Rest() []batches.Unit {
	var rest []batches.Unit
	inHand := -1
	if l := s.InHand(); l != nil {
		inHand = l.Index
		rest = s.restOf(l)
	}
	for _, u := range s.Winding.Task.Units {
		if u.Layer != inHand && u.Layer >= s.Day.LastDone {
			u.Time *= quantity.Time(s.Pace)
			rest = append(rest, u)
		}
	}
	return rest
}

// Over tells that nothing is wound any more.
func (s *Script) Over() bool { return s.Day.Finished || s.Day.LastDone == len(s.Winding.Laid) }

// restOf is what is left of the layer in hand. Since it is not done, it takes the time of a
// circuit at least.
func (s *Script) restOf(l *Layer) []batches.Unit {
	whole := s.Winding.Laid[l.Index]
	var rest []batches.Unit
	wound, upTo := l.Wound(), 0.0
	for _, u := range s.Winding.Task.Units {
		if u.Layer != l.Index {
			continue
		}
		share := float64(u.Time / whole.Time)
		upTo += share
		left := min(1, (upTo-wound)/share)
		if left <= 1e-9 && !u.EndsLayer {
			continue
		}
		left = max(0, left)
		u.Resin *= quantity.Mass(left)
		u.FibreWeight *= quantity.Mass(left)
		u.Time *= quantity.Time(left)
		rest = append(rest, u)
	}
	planned := quantity.Time(0)
	for i := range rest {
		planned += rest[i].Time
	}
	// All of it takes what is left of the layer; nothing of an overdue one is planned.
	for i := range rest {
		if planned > 0 {
			rest[i].Time *= s.Left(l) / planned
		} else {
			rest[i].Time = s.Left(l) / quantity.Time(len(rest))
		}
	}
	return rest
}

// Begun is the winding from now on, to be planned again: what is left of it, with what is in
// the bath and in those cups that can still be used, in the ensemble that the readings left.
func (p *Played) Begun(usable []Pot) *schedule.Winding {
	s := p.Script
	w := *s.Winding
	task := *s.Task
	task.Units = s.Rest()
	task.Begin = batches.Beginning{At: s.Now, Pause: s.pauseLeft(), Filled: s.Filled()}
	for _, pot := range usable {
		task.Begin.Cups = append(task.Begin.Cups, batches.MixedPot{MixAt: pot.MixedAt, Pot: pot.Pot, Seq: pot.Seq, Mixed: pot.Mixed})
	}
	heels := p.heels()
	task.Heel, task.HeelAlone = heels.withFilms, heels.alone
	task.Drawn = p.Cloud.Even(restMembers)
	for i := range task.Drawn {
		task.Drawn[i].Weight = 1
	}
	known := p.Cloud.Belief()
	task.Known = &known
	w.Task = &task
	w.Laid = s.laidRest(task.Units)
	return &w
}

// restMembers judge the plan of a rest.
const restMembers = 160

// laidRest are the layers with what is left of the one in hand.
func (s *Script) laidRest(units []batches.Unit) []winding.Laid {
	laid := slices.Clone(s.Winding.Laid)
	for i := range laid {
		laid[i].Neighbour = nil // the band is what it is by now
	}
	l := s.InHand()
	if l == nil {
		return laid
	}
	whole := &laid[l.Index]
	resin, time := quantity.Mass(0), quantity.Time(0)
	for i := range units {
		if units[i].Layer == l.Index {
			resin += units[i].Resin
			time += units[i].Time
		}
	}
	share := float64(resin / whole.Resin)
	whole.Circuits = max(1, int(math.Ceil(share*float64(whole.Circuits)-1e-9)))
	whole.Path *= quantity.Length(share)
	whole.Fibre *= quantity.Mass(share)
	whole.Resin, whole.Time = resin, time
	return laid
}

// pauseLeft is for how long the machine cannot wind on yet: what is left of the pause between two
// layers, and of pouring, which is logged as it begins.
func (s *Script) pauseLeft() quantity.Time {
	if s.Running() {
		return 0
	}
	left := s.pouringLeft()
	if n := s.Day.LastDone; s.InHand() == nil && n > 0 && n < len(s.Winding.Laid) {
		left = max(left, s.Task.Pause-(s.Now-s.Layers[n-1].DoneAt))
	}
	return max(0, left)
}

// pouringLeft is what is left of pouring the last pots, one after another.
func (s *Script) pouringLeft() quantity.Time {
	var at []quantity.Time
	for i := range s.Pots {
		if s.Pots[i].Poured {
			at = append(at, s.Pots[i].PouredAt)
		}
	}
	slices.Sort(at)
	ready := quantity.Time(math.Inf(-1))
	for _, t := range at {
		ready = max(ready, t) + s.Task.Bath.Pour
	}
	return ready - s.Now
}

// heels are what members have in the bath and on the mandrel now. Those of the cloud are played
// already; any other is played once.
type heels struct {
	script *Script
	mutex  sync.Mutex
	known  map[ensemble.Member]*heel
}

type heel struct {
	world *World // nil: not played yet

	played sync.Once
	alone  batches.Heel
	err    error

	laid     sync.Once
	complete batches.Heel
	laidErr  error
}

func (p *Played) heels() *heels {
	h := &heels{script: p.Script, known: map[ensemble.Member]*heel{}}
	if p.Script.weighFrom == 0 { // else they do not know the layers laid before
		for _, w := range p.Worlds {
			h.known[w.Member] = &heel{world: w}
		}
	}
	return h
}

func (h *heels) of(m ensemble.Member) *heel {
	m.Weight = 1
	h.mutex.Lock()
	defer h.mutex.Unlock()
	if h.known[m] == nil {
		h.known[m] = &heel{}
	}
	return h.known[m]
}

// alone is the heel of a member without when its films gel.
func (h *heels) alone(m ensemble.Member) (batches.Heel, error) {
	heel := h.of(m)
	heel.played.Do(func() { heel.err = heel.play(h.script, m) })
	return heel.alone, heel.err
}

func (h *heels) withFilms(m ensemble.Member) (batches.Heel, error) {
	alone, err := h.alone(m)
	if err != nil {
		return alone, err
	}
	heel := h.of(m)
	heel.laid.Do(func() {
		heel.complete = alone
		heel.complete.LaidGels, heel.complete.BaseGels, heel.laidErr = heel.world.gels()
	})
	return heel.complete, heel.laidErr
}

func (h *heel) play(s *Script, m ensemble.Member) (err error) {
	if h.world == nil {
		m.Weight = 1
		if h.world, err = s.World(m); err != nil {
			return err
		}
	}
	never := quantity.Time(math.Inf(1))
	h.alone = batches.Heel{State: h.world.Bath, Over: h.world.Over, LaidGels: never, BaseGels: never}
	if lies := &h.world.lies; lies.was.Mass > 0 {
		h.alone.Lies, h.alone.Since = &lies.was, lies.from
	}
	if h.alone.Life, err = h.world.Life(); err != nil {
		return err
	}
	if h.world.OffRatio() != 0 {
		h.alone.Over = vessel.Gel // nothing is wound from it either
	}
	if past := s.PastReading(); past != nil && !(past.Viscous && h.world.TooThick()) {
		h.alone.Over = past.PastLimit() // whatever is reckoned
	}
	return nil
}

// gels are when the layer in hand and the one below what is wound next first gel; +Inf where
// there is none.
func (w *World) gels() (laid, base quantity.Time, err error) {
	laid, base = quantity.Time(math.Inf(1)), quantity.Time(math.Inf(1))
	s := w.script
	film := w.Film()
	if l := s.InHand(); l != nil {
		if laid, err = w.LayerGels(film, l.Index); err != nil {
			return laid, base, err
		}
	}
	if n := s.Day.LastDone; n > 0 {
		base, err = w.LayerGels(film, n-1)
	}
	return laid, base, err
}
