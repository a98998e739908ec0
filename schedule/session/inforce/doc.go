// Package inforce says which plan a day goes by, what is left of it now, whether that still
// holds, and makes a new one where it does not.
//
// A plan rules from its event on: the start's, until replan --take or log itself logs another.
// What it fixes are its stops, what is poured there, and the grams of each pot. Its times are a
// forecast: what is left of it is timed anew from the bath and the clock of now, as the search
// times a plan, and keeps the minute that was foreseen where it can.
//
// The pots mixed since a plan was made are its own in their order, whatever they weigh: whether
// the rest still holds is asked with what was weighed. It holds while enough of the baths that
// it could be now, [batches.EnoughMembers], keep every limit and the reserve with it, and while
// the bath is neither too low nor too full for it by more than drips and the scales make.
//
// A plan in force that holds is given up for another only where that saves a change of the
// bath, a layer on a gelled one or a pot: what else it would gain is not worth that the sheet on
// the wall is no longer true.
package inforce
