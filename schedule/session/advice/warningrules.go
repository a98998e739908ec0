package advice

import (
	"math"
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/replay"
)

// What is worth a warning (our choices).
const (
	fewEffective    = 20   // members are too few for a share of one in ten to mean much
	mostUnexplained = 3    // readings are told one by one
	paceWithin      = 0.1  // of the plan's is what a crew expects
	overfull        = 0.05 // of what the bath holds: scales differ
)

// FindWarnings finds what a crew must know of a session, whatever is asked of it. So many of the
// first are urgent: they may spoil the part while it is wound, and stand beside the order.
func FindWarnings(p *replay.Played) (list []warning.Warning, urgent int) {
	s := p.Script
	if s.Clocks.Events > 0 {
		list = append(list, s.Clocks)
	}
	list = append(list, bathOffRatio(p)...)
	if mass, most := p.Worlds[0].Bath.Mass, s.Task.Bath.Highest; s.Filled() && mass > most*(1+overfull) {
		list = append(list, BathOverfull{Mass: mass, Highest: most})
	}
	dry := ranDry(p)
	if p.AllButEmpty() { // until more is poured
		list, dry = append(list, dry...), nil
	}
	urgent = len(list)
	list = append(list, dry...)
	if layers := OffRatioLayers(p); layers != nil {
		list = append(list, layers)
	}
	for _, pot := range s.Standing() {
		if off := s.OffRatio(&pot); off != 0 {
			list = append(list, CupOffRatio{Pot: pot.Number, Event: pot.Seq, Off: off})
		}
	}
	if at, ok := s.Overdue(); ok {
		clock := s.Winding.Job.Clock
		list = append(list, LayerOverdue{Layer: s.Day.InHand, Ended: clock(at), Now: clock(s.Now)})
	}
	unexplained := Unexplained(p, false)
	if more := len(unexplained) - mostUnexplained; more > 0 {
		unexplained = append(unexplained[:mostUnexplained], MoreUnexplained{Readings: more})
	}
	list = append(list, unexplained...)
	if past := s.PastReading(); past != nil {
		list = append(list, ReadingPastLimit{Reading: past.Seq})
	}
	if p.Cloud.Effective < fewEffective {
		list = append(list, FewBathsFit{Tried: len(p.Cloud.Members)})
	}
	if math.Abs(s.Pace-1) > paceWithin {
		list = append(list, PaceOff{Pace: s.Pace})
	}
	return list, urgent
}

// Unexplained are the readings that no bath explains; over: the day is.
func Unexplained(p *replay.Played, over bool) []warning.Warning {
	var list []warning.Warning
	job := p.Script.Winding.Job
	for _, d := range p.Doubts {
		list = append(list, ReadingUnexplained{
			Reading: d.Reading, Low: d.Low, High: d.High, At: job.Clock(d.Reading.At), Day: job.Start,
			Believed: d.Reading.Seq == p.Script.Outranks(), ColdPots: !d.Reading.Viscous && potsUnread(p.Script), Over: over,
		})
	}
	return list
}

// potsUnread tells whether a pot's temperature was not read when it was mixed, which mostly is
// behind a temperature of the bath that nothing explains.
func potsUnread(s *replay.Script) bool {
	for i := range s.Pots {
		if s.Pots[i].Mixed == 0 {
			return true
		}
	}
	return false
}

// bathOffRatio warns of the pots in the bath that were off their ratio: while what is in it is, and
// else that it is not any more.
func bathOffRatio(p *replay.Played) []warning.Warning {
	var list []warning.Warning
	s := p.Script
	off := p.OffRatio() != 0
	for _, pot := range s.InBath() {
		switch was := s.OffRatio(&pot); {
		case was == 0:
		case off:
			list = append(list, BathOffRatio{Pot: pot.Number, Off: was, Wound: s.Day.LastDone == len(s.Winding.Laid)})
		default:
			list = append(list, BathDiluted{Pot: pot.Number, Off: was})
		}
	}
	return list
}

// OffRatioLayers are the layers that were wound from a bath off its ratio; nil: none, and none
// where no pot of the day was.
func OffRatioLayers(p *replay.Played) warning.Warning {
	s := p.Script
	if !slices.ContainsFunc(s.Pots, func(pot replay.Pot) bool { return pot.Poured && s.OffRatio(&pot) != 0 }) {
		return nil
	}
	best, err := p.Best()
	if err != nil {
		return nil // whoever asks for the bath is told
	}
	w := LayersOffRatio{}
	for i, laid := range best.Laid {
		if laid.Off != 0 {
			w.Layers = append(w.Layers, s.Layers[i].Index+1)
			if math.Abs(laid.Off) > math.Abs(w.Off) {
				w.Off = laid.Off
			}
		}
	}
	if w.Layers == nil {
		return nil
	}
	return w
}

func ranDry(p *replay.Played) []warning.Warning {
	at := p.Likely(func(w *replay.World) float64 { return float64(w.Dry) })
	if math.IsInf(at, 1) {
		return nil
	}
	job := p.Script.Winding.Job
	return []warning.Warning{BathRanDry{At: job.Clock(quantity.Time(at)), Day: job.Start}}
}

// findWarnings adds what is to be known of the answer. Nothing is urgent any more where nothing is
// left to wind.
func (n *now) findWarnings() error {
	a := &n.answer
	a.Warnings, a.Urgent = FindWarnings(n.played)
	if a.Situation.Wound || n.script.Day.Finished {
		a.Urgent = 0
	}
	if a.Rule == StillTooThick && a.ThinsIn > 0 {
		a.Warnings = append(a.Warnings, BathThinning{In: a.ThinsIn})
	}
	for _, cup := range a.Cups {
		danger := slices.ContainsFunc(a.Hazards, func(h hazard.Hazard) bool { return h.Pot.Seq == cup.Seq })
		if !cup.Usable && cup.OffRatio == 0 && !danger { // which says itself what to do

			a.Warnings = append(a.Warnings, CupPastUse{Pot: cup.Number, Set: cup.Alpha >= n.script.Task.Resin.Gel})
		}
	}
	return nil
}
