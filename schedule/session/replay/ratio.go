package replay

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// OffRatio is the relative error of a pot's ratio, positive for too much hardener, where it is
// beyond the job's tolerance; else 0. A pot weighed as one mass is taken to be at the ratio.
func (s *Script) OffRatio(p *Pot) float64 {
	off := s.Winding.Record.Mix.RatioError(p.Pot)
	if math.Abs(off) > float64(s.Winding.Job.Pots.RatioTolerance) {
		return off
	}
	return 0
}

// OffRatio is the relative error of the hardener in the bath, positive for too much, where it is
// beyond the job's tolerance; else 0.
func (w *World) OffRatio() float64 {
	if w.Bath.Mass <= 0 {
		return 0
	}
	h := quantity.Mass(w.Hardener)
	return w.script.OffRatio(&Pot{Pot: resins.Pot{Resin: 1 - h, Hardener: h}})
}

// OffRatio of the bath is the same in every world, see [World.OffRatio].
func (p *Played) OffRatio() float64 { return p.Worlds[0].OffRatio() }

// InBath are the pots that were poured into the bath of now, in that order.
func (s *Script) InBath() []Pot {
	var list []Pot
	if s.watchFrom < 0 {
		return list
	}
	for _, st := range s.steps[s.watchFrom:] {
		if st.do == pour {
			list = append(list, s.Pots[st.index])
		}
	}
	return list
}
