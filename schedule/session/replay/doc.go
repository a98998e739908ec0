// Package replay plays the journal of a session again: what is in the bath now, what
// stands in cups, what lies on the mandrel, for every bath that it could be.
//
// # From events to stretches
//
// A [Script] is what the events mean for the resin, the same for every member of an
// ensemble. Between two events the tow runs or stands:
//
//	done layer      draw = resin of the layer/time that the machine ran in it     (1)
//	layer in hand   draw = resin of the layer/max(time planned·pace, time run)    (2)
//	pace            (time run in done layers + h)/(time planned for them + h)     (3)
//
// so that a layer takes the resin the job gives it, however long it took; h is the time
// planned for a layer, the mean of all, by which the first layers count less. A pause
// draws nothing and the tow does not cool. A layer that the session was finished with in hand
// is given up: it has the share that was wound by (2), and nothing is drawn from then on. The
// bath never falls below half of its lowest mass by reckoning: what the pick-up really is, the
// scales must tell.
//
// A pot ages in its cup from its event mixed, the minute in which mixing began, and from the
// temperature read then; pots without one are as much warmer than the job says as those with
// one were on the mean. A fill
// makes a clean bath; a left-over logged with resin in the bath is its mass, and of nothing a
// film that has a temperature.
//
// The room is the job's course plus the difference to the thermometer. The difference is
// nothing when the session starts, since whoever starts a day by its job takes the room for
// what the job says; from there it is linear to the first reading and between the readings,
// from when somebody last read the bath's thermometer and had nothing to say of the room,
// and constant after the last. A reading says what the room is now: what was reckoned and
// read of the bath in the hours before must not be turned round by it. Whoever reads the room
// before the first pot has it as it was read for all of the resin.
//
// # From readings to weights
//
// With r the difference between reading and member over its standard deviation,
//
//	L = (1 − ε)·exp(−r²/2)/√(2π) + ε·u                                            (4)
//
// is what a reading says of a member. ε·u is the chance of a reading that is simply wrong
// (another bath, a slip of the pen): beyond about four standard deviations it says nothing
// more. A reading that is most probably of that kind, by the weights of all, is reported
// as one that no member explains.
//
// Where the last reading of the bath's temperature is such a one, and hotter than what is
// reckoned, it is the bath's from then on: it errs on the safe side, and a colder one would not.
//
// Readings of one thermometer in one bath do not err independently, and the model has errors
// of its own. However many there are, n of a kind count together as twelve at most,
//
//	ln L of all = min(1, 12/n)·Σ ln L                                             (5)
//
// so that no number of readings makes the answer surer than the model is (our choice).
//
// A logger that writes every second tells no more than one that writes every minute. Of more than
// 48 readings of a kind one of a window weighs,
//
//	window = (last − first)/48, 1 min at least, 10 min at most                    (6)
//
// or doubled until 48 are left: the middle one by what was read, with the error of one, since those of
// one thermometer err together. It stands for as many as it is the middle of, so that (5) holds of all.
// In a window nothing happens but readings. The last one of all weighs by itself; and beside that of its
// window one that differs from it by more than four standard deviations, and the highest where it is past a
// limit. Whether the bath is past one is decided by all readings. Of more than 48 readings of the room the mean of a window is taken, and the last as it is.
//
// What is not here: temperature differences inside the bath, hardener off its ratio,
// resin lost by dripping.
package replay
