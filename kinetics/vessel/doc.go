// Package vessel follows resin that cures and warms itself in a bath or a cup:
// cure coupled to heat, the limits that end its working life, and what pouring
// and winding do to it.
//
// # Model
//
// The resin is stirred: one conversion α, one temperature T and, where the
// viscosity law has it, one growth integral φ for the whole mass m.
//
//	dα/dt      = rate(α, T)                                            (1)
//	m·cp·dT/dt = m·H·dα/dt − h_s·A·(T − T_room)
//	             − (h_f·A + h_w·perimeter·depth)·(T − T_wall)
//	             − ṁ_f·c_f·(T − T_room)                                (2)
//	depth      = m/(ρA)                                                (3)
//	dm/dt      = −draw                                                 (4)
//
// A is the free surface in m², h_s, h_w and h_f the loss coefficients in W/(m²·K) at
// the surface, through the wall and through the floor, T_wall the jacket's temperature or
// the room's, ṁ_f and c_f the tow's mass flow and heat capacity (the tow enters
// at room temperature and leaves at the bath's), draw the resin carried off.
//
// A mass that would follow its surroundings in less than 20 s is given the heat
// capacity that makes it 20 s: its steady temperature is the same.
//
// Room and jacket may change with time, linearly between given points; the
// integration restarts at each point and where a rate law changes its form.
//
// # Pouring
//
// α and φ mix by mass, heat by m·cp·T with one cp. The viscosity after a top-up
// is the larger of the law at the mean age and the log-mass mean of the parts;
// what the latter has more is kept as [State.LogExcess] until the next change.
//
// # What sticks
//
// Resin stays on wiper edges, drum ends and walls above the level. A top-up does not
// renew it and a change does. It is too thin to warm the bath or itself, and has gone
// through all of the bath's temperatures since the last change:
//
//	dα_s/dt = rate(α_s, T)                                             (5)
//
// α_s begins as the α of the fill. Where a pot is poured on that is older, it has that
// pot's. It follows the bath's steps by a method of order 3 and bounds none of them.
//
// # Working life
//
// See [Limits] and [Bath.Life].
//
// # A drum that stands
//
// Where [Vessel.Drum] leaves resin unstirred, a run without tow follows its mean, for when it is
// mixed again: it cools by the slowest mode of a slab, equation (7), which is a little slower than
// it does, and is warmed as if it were stirred, a little faster. How long its hottest place lasts
// is another question, [Bath.Standing], equations (8) to (10).
//
// What is not here: temperature differences inside the mass but for those of [Bath.Standing], gel
// of mixed ages, moisture, splashing.
package vessel
