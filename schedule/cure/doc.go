// Package cure follows a wound part from its last layer to the end of its oven: until
// when it is kept turning, when it may be left, when the mandrel may be drawn, what the
// room alone gives, and the fastest program of ramps and holds that keeps every limit.
//
// # Model
//
// Every layer has an age of its own. It is laid with the resin of the bath as its
// winding is half done, and ages on those below it while the wall grows. Mandrel and
// laminate conduct along the radius (package still, body Wall), while the wall grows as
// afterwards: heat source by the resin in each cell, conductivity across the fibres by Rayleigh's formula
// (package conduction), heat capacities by mass, the losses of room or oven at the
// outside and of still air in a bore.
//
// Stop turning: the last place has passed the viscosity from which on resin no longer
// drains, in the room that it stands in; warmed before it gels it would run again. It
// may be left, and put into an oven that does not turn, when its last place has gelled.
// The mandrel may be drawn when every place has gelled and its glass temperature is
// above the room by a margin.
//
// # Three baths
//
// The likely bath is the record's. The slow and the fast one are its 10 % and 90 %
// quantiles by the spread of time, z = 1.2816 standard deviations of ln(rate). What
// must have happened (no more sag, gel, a target, a glass temperature ahead) is asked of
// the slow bath, what must not happen (exotherm, a mandrel too hot) of both. Beyond the
// record's range of validity the spread widens by what an activation energy that is off
// by 5 kJ/mol makes of the distance,
//
//	g = exp(ΔE/R·|1/T_valid − 1/T|)                                        (1)
//
// The energies of amine systems scatter from 53 to 63 kJ/mol (studies in the notes of
// the built-in records): ΔE is half of that.
//
// # Programs
//
// A program begins when the part may be left, or at once in an oven that turns it, or
// when it is drawn from its mandrel if it is to stand free. It has one or two ramps with
// a hold after each, and cools to [OutOfOven]. It must keep
//
//   - the oven's highest air and its ramps, the mandrel's highest temperature;
//   - the exotherm's limit at the hottest place;
//   - of a part that stands free, the glass temperature of every place above the
//     temperature of that place by a margin, all the time. On its mandrel a part may pass
//     through its glass temperature: the mandrel carries its shape, and before gel there
//     is nothing yet to soften;
//   - and reach its target, a degree of cure or a glass temperature, at the laziest place
//     by the end of the last hold.
//
// # Search
//
// The faster of two ramps is the faster program, and the more dangerous: for given
// temperatures and a given first hold the ramps are found by bisection on a list of rates
// that a controller can be set to, and the last hold ends when the target is reached. Over
// temperatures and first hold the search goes from several starts downhill in steps that
// halve. It computes on coarse cells and with a guard of half a kelvin to each limit;
// [Referee] follows the program found on finer cells and with tighter steps, from the last
// layer on, and asks each promise again. A test compares with a grid of all programs.
//
// A place is a cell. The laziest one lies half a cell inside a surface; in 25 mm that is
// heated fast the surface itself is 0.001 to 0.002 less cured, by the end of a hold 2e-4.
//
// What is not here: shrinkage and stresses, the time that the oven's own steel needs, heat
// along the tube and at its ends, moisture, convection in ungelled resin, resin that drains.
// Glass temperatures of a record are as uncertain as it says; only times are widened here.
package cure
