package report

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// breakWords say why there is no plan.
func (p *Plan) breakWords() (text string) {
	defer shown("breaks", &text)
	b := p.Breaks
	if b == nil {
		return ""
	}
	limit := p.Limits.words(vessel.Limit(b.Limit))
	if b.Limit == string(vessel.TooThick) && b.ThinC != nil {
		return fmt.Sprintf("Layer %s breaks it at %s: the bath is still too thick to wind from; by warming it thins to its limit %s after the pour, at %.1f °C. Start with warmer resin.",
			b.Layer, clock(b.At, p.Start), minutes(quantity.Time(deref(b.ThinsInS))), *b.ThinC)
	}
	switch batches.Reason(b.Why) {
	case batches.ByHighest:
		return fmt.Sprintf("Layer %s breaks it: %s", b.Layer, b.overfullWords())
	case batches.ByHeel:
		return fmt.Sprintf("Layer %s breaks it: %s.", b.Layer, oldHeel)
	case batches.ByReserve:
		return fmt.Sprintf("Layer %s breaks it at %s: %s of working life are left where the reserve asks %s; then %s.",
			b.Layer, clock(b.At, p.Start), roundDown(quantity.Time(deref(b.LeftS))), minutes(quantity.Time(deref(b.ReserveS))), limit)
	case batches.ByChance:
		return fmt.Sprintf("Of 100 baths like this one, %.0f keep the best plan, and 90 must; it breaks first in layer %s, where %s.", math.Floor(100*p.ChanceReserve+1e-9), b.Layer, p.chanceWords(b))
	case batches.ByReferee:
		return "The strict simulation does not confirm the best plan."
	}
	return fmt.Sprintf("Layer %s breaks it at %s: %s.", b.Layer, clock(b.At, p.Start), limit)
}

const oldHeel = "what is left in the bath is too old to be topped up"

// chanceWords say what most of the baths break that do not keep a plan.
func (p *Plan) chanceWords(b *Break) string {
	words := p.Limits.words(vessel.Limit(b.Limit))
	switch {
	case batches.Reason(b.Most) == batches.ByHeel:
		return oldHeel
	case b.ReserveS != nil:
		return "less is left than the reserve asks before " + words
	}
	return words
}

// overfullWords say what does not go into the bath, and what to do about it.
func (b *Break) overfullWords() string {
	much := fmt.Sprintf("takes more resin than the bath holds between lowest and highest, %s and not %s", mass(b.overfull.Takes), mass(b.overfull.Holds))
	switch {
	case b.overfull.By == schedule.ByPots:
		return "the resin that it takes would fit into the bath, the pots that it comes in do not. Allow smaller ones: lower pots.smallest."
	case b.overfull.By == schedule.ByCircuit:
		return "a single circuit of it " + much + ". Raise bath.highest, or lower bath.lowest."
	case b.begun:
		return "it " + much + ". Stop inside it and top up there, or take a larger bath."
	}
	return "it " + much + ". Write refill: circuits, or raise bath.highest."
}
