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
// # Working life
//
// See [Limits] and [Bath.Life].
//
// What is not here: temperature differences inside the mass, gel of mixed ages,
// moisture, splashing.
package vessel
