// Package advice answers the question of a crew with the machine in front of it: how long
// have we got, and what is to be done.
//
// # What is left
//
// Each world of a replayed day, see package replay, is followed from now on: with the tow
// as it is, running to the end of the layer in hand, or standing. What is left is the time
// to the first limit; likely is the weighted median of the worlds, sure their 10 %
// quantile.
//
// # What fits
//
// A goal, the end of a layer or of a stretch of circuits where the job refills inside its
// layers, fits if the resin lasts to it and at least [batches.EnoughMembers] of the worlds
// keep every limit and the reserve. A layer in hand may be finished on the reserve, all of
// it: that is what the reserve is for. The next one may not be begun on it.
//
// Cold resin that is still too thick is waited for, until all but a few of the worlds have
// thinned.
//
// # What to do
//
// [Situation.Advise] is the whole rule, a table from what is known to an advice: hazards first, then
// what the crew is asked for, then machine and bath, which [Situation.Machine] reads alone. What is
// poured is what the plan in force pours, or one of the rest where that does not hold. Without any
// plan amounts are the largest that keep the rule: just enough to wind to the farthest goal that
// fits. A pot that would end before its pour goes in while it can. Pots that stand ready and can still be used go first, and
// where they are enough for what comes next nothing is mixed: the machine goes on at once.
// While the tow runs pots are mixed as long as there is resin; then it stands.
package advice
