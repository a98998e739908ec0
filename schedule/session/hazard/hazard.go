// Package hazard tells which pots and baths of a day are dangerous now, and what is to be done
// with them before anybody winds on.
//
// A hazard is staged by what the resin is now, in the worst of ten worlds or by a reading:
//
//	set     it has gelled and could run away, or it is over 60 °C: nobody touches it
//	liquid  past the temperature limit, or able to run away and not used before: spread it
//
// What is to come only says how urgent it is. It stays until somebody logs what became of it:
// spread, thrown-out or cured. Masses that could run away are those that one in a hundred such
// vessels does not bear, see [schedule.Winding.RunsAway].
package hazard

import (
	"cmp"
	"slices"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session/replay"
)

// Stage is what may still be done with a hazard.
type Stage int

// The stages, the worse later.
const (
	None   Stage = iota
	Liquid       // it can be spread
	Set          // nobody touches it
)

// Why is what makes resin a hazard.
type Why string

// The reasons.
const (
	Gelled    Why = "gelled"
	Hot       Why = "hot"        // too hot to touch
	OverLimit Why = "over-limit" // past the limit of the bath's temperature
	RunsAway  Why = "runs-away"  // it can, and is not used before
)

// tooHot is the temperature from which on nobody touches resin: what it meets boils or melts
// soon after, and a splash burns (common practice).
var tooHot = quantity.Celsius(60)

// A Hazard is a pot in its cup, or the bath.
type Hazard struct {
	Stage Stage
	Why   Why
	Pot   replay.Pot // Seq 0: the bath
	Mass  quantity.Mass
	replay.Resin
	Reading int                  // that says so, by number; 0: reckoning does
	Read    quantity.Temperature // by it
	Off     float64              // relative error of its hardener, beyond the job's tolerance
	// Depth is how deep it may lie when it is spread, in a square tray of this Side; of one that is
	// liquid.
	Depth, Side quantity.Length
}

// InBath tells that it is the bath.
func (h *Hazard) InBath() bool { return h.Pot.Seq == 0 }

// A Use is when a pot that stands mixed is poured, in elapsed time; +Inf: it is not. Not known:
// no plan says so.
type Use func(pot *replay.Pot) (at quantity.Time, known bool)

// Of finds the hazards of a played day, the worst first. over tells that nothing is wound from
// the bath any more. cups has what is known of each pot that stands.
func Of(p *replay.Played, cups map[int]*replay.CupNow, use Use, over bool) ([]Hazard, error) {
	f := &finder{played: p, winding: withReadings(p), hot: max(tooHot, p.Script.Task.Limits.BathTemperature)}
	pots := p.Script.Standing()
	ofPot := make([][]Hazard, len(pots))
	err := ensemble.Each(len(pots), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		alone := finder{played: f.played, winding: f.winding, hot: f.hot}
		err := alone.pot(&pots[i], cups[pots[i].Seq], use)
		ofPot[i] = alone.list
		return err
	})
	if err != nil {
		return nil, err
	}
	f.list = slices.Concat(ofPot...)
	if p.Script.Filled() {
		if err := f.bath(over); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(f.list, func(a, b Hazard) int {
		return cmp.Or(cmp.Compare(b.Stage, a.Stage), cmp.Compare(a.Sets, b.Sets))
	})
	return f.list, nil
}

// OldResin is how deep what is in the bath may lie once it is out; 0: however it stands there, it
// cannot run away.
func OldResin(p *replay.Played) (quantity.Length, error) {
	w, mass := withReadings(p), p.Worlds[0].Bath.Mass
	now, err := p.BathNow()
	if err != nil {
		return 0, err
	}
	is := now.Hottest
	runs, err := w.RunsAway(schedule.InCup, mass, is) // a pail is no flatter than a cup
	if err != nil || !runs {
		return 0, err
	}
	depth, _, err := w.SpreadTo(mass, is)
	return depth, err
}

// withReadings is the winding of a day with what its readings say of the resin.
func withReadings(p *replay.Played) *schedule.Winding {
	w, task := *p.Script.Winding, *p.Script.Task
	known := p.Cloud.Belief()
	task.Known = &known
	w.Task = &task
	return &w
}

// Possible tells whether a day can have any: most have none, and what it takes to find them need
// not be asked.
func Possible(p *replay.Played) bool {
	return len(p.Script.Standing()) > 0 || p.Script.Filled() &&
		(p.Past() || p.OffRatio() != 0 || p.Script.Over())
}

// A finder gathers hazards.
type finder struct {
	played  *replay.Played
	winding *schedule.Winding // with what the readings know
	hot     quantity.Temperature
	list    []Hazard
}

// pot looks at one in its cup.
func (f *finder) pot(pot *replay.Pot, is *replay.CupNow, use Use) error {
	h := Hazard{Pot: *pot, Mass: pot.Mass(), Resin: is.Resin(), Off: f.played.Script.OffRatio(pot)}
	task, now := f.played.Script.Task, f.played.Now()
	at, known := use(pot)
	if !known { // whoever mixed it means to pour it while it can be poured at leisure
		at = now + task.Reserve
	}
	idle := is.Sure() < at+task.Bath.Pour-now
	return f.add(&h, schedule.InCup, idle, func() error { return f.played.PotAhead(&h.Resin, pot, is, f.hot) })
}

// bath looks at what is in it.
func (f *finder) bath(over bool) error {
	now, err := f.played.BathNow()
	if err != nil {
		return err
	}
	h := Hazard{Mass: f.played.Worlds[0].Bath.Mass, Resin: now, Off: f.played.OffRatio()}
	if past := f.played.Script.PastReading(); past != nil && !past.Viscous {
		h.Hottest, h.Reading, h.Read = max(h.Hottest, past.Temperature), past.Seq, past.Temperature
	}
	return f.add(&h, schedule.InBath, over || f.played.Past(), func() error { return f.played.BathAhead(&h.Resin, f.hot) })
}

// add stages what was found and keeps it where it is a hazard. idle resin is not used any more,
// or not before it ends; ahead finds what becomes of it.
func (f *finder) add(h *Hazard, where schedule.Where, idle bool, ahead func() error) error {
	gelled := h.Gelled >= 1-batches.EnoughMembers
	overLimit := h.Hottest >= f.played.Script.Task.Limits.BathTemperature
	if h.InBath() { // once over it, it stays one
		overLimit = f.played.PastHot()
	}
	runs, err := false, error(nil)
	if gelled { // it stays one when it has cooled
		if err := ahead(); err != nil {
			return err
		}
		overLimit = overLimit || h.Peak >= f.played.Script.Task.Limits.BathTemperature
	}
	if (gelled || idle) && !overLimit {
		if runs, err = f.winding.RunsAway(where, h.Mass, h.Hottest); err != nil {
			return err
		}
	}
	switch {
	case h.Hottest > f.hot:
		h.Stage, h.Why = Set, Hot
	case gelled && (runs || overLimit):
		h.Stage, h.Why = Set, Gelled
	case overLimit:
		h.Stage, h.Why = Liquid, OverLimit
	case idle && runs && !gelled:
		h.Stage, h.Why = Liquid, RunsAway
	default:
		return nil
	}
	if !gelled {
		if err := ahead(); err != nil {
			return err
		}
	}
	if h.Stage == Liquid {
		h.Depth, h.Side, err = f.winding.SpreadTo(h.Mass, h.Hottest)
	}
	f.list = append(f.list, *h)
	return err
}
