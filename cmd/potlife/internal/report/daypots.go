package report

import (
	"potlife/schedule/batches"
	"potlife/schedule/session"
)

// pots hold the pots in the order in which they were mixed against those of the plan.
func (b *dayBuilder) pots() {
	planned, mixed := b.plannedPots(), b.mixedPots()
	for i := range max(len(planned), len(mixed)) {
		p := DayPot{Number: b.script.NextPot + i - len(mixed)}
		if i < len(planned) {
			p.Planned = &planned[i]
		}
		if i < len(mixed) {
			p.Mixed, p.Number = &mixed[i], mixed[i].number
		}
		if p.Planned != nil && p.Mixed != nil {
			more := p.Mixed.MassG - p.Planned.MassG
			p.MoreG = &more
		}
		b.day.Pots = append(b.day.Pots, p)
	}
}

func (b *dayBuilder) plannedPots() []PlannedPot {
	var list []PlannedPot
	plan := b.src.Journal.AtStart()
	if plan == nil {
		return nil
	}
	for _, pour := range plan.Pours {
		for _, pot := range pour.Pots {
			list = append(list, PlannedPot{
				MixAt: b.on(pot.MixAt), PourAt: b.on(pour.At), Into: pour.Into,
				Where: keptStop(&pour).words(), MassG: pot.ResinG + pot.HardenerG,
			})
		}
	}
	return list
}

func (b *dayBuilder) mixedPots() []MixedPot {
	var list []MixedPot
	index := map[int]int{} // by seq
	into := batches.Fill   // the next pour into a clean bath
	last := -1             // pot poured before
	filled := false
	for _, e := range b.active {
		switch e.Kind {
		case session.Mixed:
			index[e.Seq] = len(list)
			list = append(list, b.mixedPot(e))
		case session.Poured:
			pot, at := &list[index[e.Pot]], b.on(e.At)
			pot.PouredAt, pot.Into = &at, string(into)
			switch {
			case filled && list[last].PouredAt.Equal(at):
				pot.Into = list[last].Into // cups of one pour
			case filled:
				pot.Into = string(batches.TopUp)
			}
			filled, last = true, index[e.Pot]
		case session.Changed:
			filled, into = false, batches.Change
		case session.Spread, session.ThrownOut, session.Cured:
			if e.Bath {
				filled, into = false, batches.Change
				continue
			}
			list[index[e.Pot]].Became = string(e.Kind)
		}
	}
	return list
}

func (b *dayBuilder) mixedPot(e session.Event) MixedPot {
	p := MixedPot{Seq: e.Seq, number: e.PotNumber, MixedAt: b.on(e.At), MassG: e.MassG, Lots: []PotLot{}}
	for _, lot := range e.Lots {
		p.Lots = append(p.Lots, PotLot{lot.Part, lot.Name, lot.Expires, lot.Expired(e.At, b.job.Zone)})
	}
	if e.ResinG > 0 {
		off := b.src.Setting.Mix.RatioError(potOf(e))
		resin, hardener := e.ResinG, e.HardenerG
		p.MassG, p.ResinG, p.HardenerG, p.RatioError = resin+hardener, &resin, &hardener, &off
		p.RatioOff = !(off <= float64(b.src.Setting.Tolerance) && -off <= float64(b.src.Setting.Tolerance))
	}
	return p
}
