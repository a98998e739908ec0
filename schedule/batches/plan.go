package batches

import (
	"cmp"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
)

// Into tells what a pour does to the bath.
type Into string

// The ways of pouring. With a filled bath a plan can begin by going on from what
// is in it: its first pour is then None, without pots.
const (
	None   Into = ""
	Fill   Into = "fill"
	TopUp  Into = "top-up"
	Change Into = "change"
)

// A Pour is what happens at one stop.
type Pour struct {
	Stop  int // units wound before it
	Into  Into
	Pots  []MixedPot
	At    quantity.Time // when the pots go in
	Winds quantity.Time // when winding goes on
}

// A MixedPot is one cup: when its mixing begins and what is weighed into it.
type MixedPot struct {
	MixAt quantity.Time
	resins.Pot
	// Seq tells one that stood mixed when the plan began from the others, see
	// [Beginning]; 0: still to be mixed.
	Seq int
	// Mixed is the temperature at which such a one was mixed; 0: as the task says.
	Mixed quantity.Temperature
}

// toBeMixed is how many of the pots do not stand mixed already.
func toBeMixed(pots []MixedPot) int {
	n := 0
	for i := range pots {
		if pots[i].Seq == 0 {
			n++
		}
	}
	return n
}

// Mass is the mass of all pots of the pour.
func (p *Pour) Mass() quantity.Mass {
	sum := quantity.Mass(0)
	for i := range p.Pots {
		sum += p.Pots[i].Mass()
	}
	return sum
}

// A Plan is a winding with its pours and what it promises on the sure bath.
type Plan struct {
	Pours  []Pour
	Start  []quantity.Time // of each unit
	End    []quantity.Time
	Score  Score
	Member Sure // the bath it was made for
	Coarse bool // searched in a coarse grain: a slightly better plan may exist
}

// Score is what plans are compared by, in this order.
type Score struct {
	Changes int
	Gelled  int           // layers laid on a gelled one
	Pots    int           // to be mixed
	Waste   quantity.Mass // left in cups, dumped, and in the bath at the end
	Spare   quantity.Time // least of life left beyond the reserve
}

// Better tells whether a plan with this score is preferred to one with another,
// by changes, layers on gelled ones and pots.
func (s Score) Better(than Score) bool {
	return cmp.Or(
		cmp.Compare(s.Changes, than.Changes),
		cmp.Compare(s.Gelled, than.Gelled),
		cmp.Compare(s.Pots, than.Pots),
	) < 0
}

// A Breach is why a plan cannot go on: at which unit and when, and which limit,
// see [Reason].
type Breach struct {
	Unit   int // the unit being wound or about to be; len(units): the end
	At     quantity.Time
	Why    Reason
	Most   Reason       // ByChance: what most of the members that do not keep it broke
	Limit  vessel.Limit // what ends the life, where the reserve or a limit broke
	Left   quantity.Time
	Needed quantity.Time // the reserve asked for, where that broke
	// ThinsIn and ThinAt are when, after the pour, and where warming would have
	// thinned a bath that is too thick to wind from; 0: never.
	ThinsIn quantity.Time
	ThinAt  quantity.Temperature
}

// Reason names what a plan broke.
type Reason string

// The reasons.
const (
	ByLimit   Reason = "limit"   // a limit of the bath
	ByReserve Reason = "reserve" // the reserve
	ByHighest Reason = "highest" // the bath cannot hold what is needed
	ByLowest  Reason = "lowest"  // what is in the bath does not last
	ByHeel    Reason = "heel"    // the heel is too old to be topped up, or a standing cup to be poured
	ByReferee Reason = "referee" // the strict simulation does not confirm it
	ByChance  Reason = "chance"  // fewer members of the ensemble keep the plan than must
)
