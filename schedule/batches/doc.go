// Package batches splits a winding into pots: how much to mix when, and at
// which layer end to pour it, so that the bath never passes a limit and the
// reserve stands at every moment.
//
// # Family of plans
//
// The bath is filled before the first layer. At every stop - a layer's end, or
// a circuit's where the job allows it - nothing happens, or the bath is topped
// up, or it is changed (dumped, wiped, filled). What is poured is just enough:
// the bath is down to its lowest mass at the next pour or at the end, each pot
// rounded up to the scale and to the smallest pot. What one pot cannot hold is
// split into equal pots, mixed one after another and poured at one stop, the
// first mixed first.
//
// # In the middle of a day
//
// A plan can begin with resin in the bath, part of a layer wound, and pots that
// stand mixed in their cups, see [Beginning]. Its first stop is then before the
// first unit: the bath is gone on from as it is, topped up, or changed, and where
// the life of what is in it is over, changed. The first pour uses the standing
// cups, each whole, the oldest first, as far as they are needed and fit, and
// fresh pots for the rest; or they are thrown away. Those that it leaves are
// waste. An empty bath without cups, at the job's start, is the ordinary plan.
//
// # Clock of a stop
//
// With a helper, pots are mixed while the machine winds, the last being ready
// when it is poured, and a stop lasts for the longest of the pause between
// layers, the change, and the pouring. Without one, everything is done in turn:
// the pause, dumping and wiping, the mixing, the pouring. Resin is poured at the
// end of the stop. Pots age in their cups from the minute that mixing starts.
// Nobody has begun to mix before the plan begins but what stands in cups.
//
// # In their cups
//
// Pots age in their cups as if they were stirred: they stand for minutes, and the mean
// of one that nobody stirs differs by less than 0.2 K and 1e-3 in the degree of cure up
// to a third of the life that it has in its cup (a test of package schedule measures
// 0.15 K and 1.3e-4; at half of it 0.35 K). Whether it lasts in its cup until it is
// poured is another question, that of its hottest place; package schedule asks it once
// a plan is found, and warns.
//
// # Who stirs the bath
//
// A drum that stops with the tow leaves the resin as it lies: the life left at a stand is that of
// its hottest place from then on, [still.Stand], and runs down second by second until the drum
// turns again and mixes it. What a drum does not reach, or all where there is none, lies from pour
// to pour, each of which stirs it; its life counts from there, though the tow runs, as deep as it
// was then. What goes onto the tow is followed stirred all the same. Lives of the search are up to
// [still.StandShort] short of those of the slab, which the referee asks in plans of 60 units and less.
//
// # What a plan must keep
//
// Bath mass between lowest and highest; no limit of package vessel crossed and
// no winding from a bath that is too thick; the reserve, at every moment;
// no top-up onto a heel beyond [HeelLimit] of gel, nor a pour from a standing cup
// beyond it; pots within their bounds and the ratio within its tolerance; the bath changed
// before what sticks in it gels, or in the time that [vessel.Clean] gives. The last is one of
// the limits, so that the reserve asks for time before it. A heel is run down before a change,
// as before any pour, since a pour is just enough to the next.
//
// # What it wants, in this order
//
// Fewest changes; fewest layers laid on gelled ones; fewest pots to mix; least waste,
// compared in steps of what rounding to the scale can cost; most spare, the
// least by which the life left ever exceeds the reserve.
//
// # Search
//
// [Solve] searches on one sure bath, one in ten on the bad side of the working life
// of a full bath, best first, and then lets an ensemble judge; where fewer than
// [EnoughMembers] of it keep the plan, the sure bath is made worse and the search
// repeated. Positions at the same stop are pruned in buckets, see [position.covers];
// nothing is pruned for being merely younger and cooler, since cooler is thicker.
package batches
