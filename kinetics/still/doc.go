// Package still follows resin that nobody stirs: a bath left alone, a cup that
// waits, a wound wall that cures. Inside it is hotter than at its surfaces, and the
// hottest place decides.
//
// # Model
//
// A body is a network of cells (package conduction), each with a temperature T_i,
// a degree of cure α_i and, where the viscosity law has it, a growth integral φ_i.
//
//	dα_i/dt     = rate(α_i, T_i)                                       (1)
//	C_i·dT_i/dt = conduction and losses + m_i·H·dα_i/dt                (2)
//	dφ_i/dt     = k_g·exp(−E_g/(R·T_i))                                (3)
//
// C_i is a cell's heat capacity in J/K, m_i its resin in kg (0 in a mandrel), H the
// heat of cure in J/kg; the laws are those of package kinetics. [Tray] is cut
// through its depth: h_s on top, h_f below, nothing at its upright walls. [Cup] is cut
// in radius and height: h_s on top, h_w at the wall, h_f at the floor. [Wall] is cut in radius through mandrel and laminate.
// Tray and cup are cut by polynomials, a wall into cells of equal thickness.
// Room and wall temperature are straight lines between given points; the
// integration restarts at each, and where a rate law changes its form in a cell.
//
// # Integration
//
// A Rosenbrock method (package rosenbrock) solves with g·I − J, g = 1/(γ·h). Cure
// is local: with a = ∂rate/∂α, b = ∂rate/∂T and the right-hand sides r_α, r_T the
// first of each cell's two equations gives
//
//	u_α = (r_α + b·u_T)/(g − a)                                        (4)
//
// and leaves for the temperatures the symmetric banded system
//
//	[g·C − g·m·H·b/(g − a)]·u_T − conduction = C·r_T + m·H·a·r_α/(g − a)  (5)
//
// which is positive definite unless a step is longer than the runaway allows: then
// it has no factors and the step is cut.
//
// The integrator was chosen by measurement, all methods on this system with the
// same step control, at an error of the gel time between 3e-5 and 1.4e-4 on the
// equal cells that trays and cups had then (ms; a virtual machine of 2 shared cores, load 3 to 5, best of eight):
//
//	                          GRK4T   RODASP   RKC2
//	tray 75 mm, 64 cells, 8 h   3.0      5.6     15
//	tray 10 mm, 64 cells, 8 h   1.2      1.9     67
//	cup 70 mm, 16 × 16, 4 h      25       45    100
//
// RKC2, the stabilised explicit method of order 2, pays for its order where the
// runaway needs small steps and for its stages in thin cells. The six stages of
// the stiffly accurate RODASP buy nothing where losses are linear and rooms follow
// straight lines; RODAS5P with eight took longer still. Of five methods with four
// stages and order 4 in the same form none was better than GRK4T by more than 5 %.
//
// # What counts
//
// Gel is the first place's; [Passages.GelledThrough] is the last one's. A temperature
// limit and the peak are the hottest place's. The viscosity of a still pot is
//
//	ln η = flow part at the hottest T + growth of the most grown place (6)
//
// which in a pot that warms itself are one place, and which does not jump while in a
// warm room the hottest place moves inwards. A place is a cell, or what is higher than
// any cell between two above each other ([conduction.Network.Summit]). Moments are found
// on the cubic between steps.
//
// # Grid
//
// Gel of a pot errs by less than 3e-4 in a tray and 1e-3 in a cup (a test holds it; 1e-4 is
// usual) on the 9 or 7 cells across that package still chooses unless [Precision] says how
// many. One cell lies about where resin is hottest that warms itself. Resin that starts
// much colder than its surroundings gels at its skin, which warms within minutes: told
// where it starts from, the grid has elements of its own there. Cells have their nodes at
// the surface itself; from cells whose middles lay inside it, such resin seemed good for
// longer than until its skin had gelled. Not resolved is a burn that runs through a large
// pot as a front, a few tenths of a millimetre thin at 200 °C: the moment of gel is right,
// a peak above 200 °C is not a figure to believe.
//
// # Trays without upright walls
//
// The middle of a tray decides, and it feels the walls only after heat has been conducted
// there, √(κ·t): 17 mm in an hour. Left out, they cost on the safe side alone: against three
// dimensions (testdata/reference/tray.py, 12 trays) gel and limits come 0 to 0.5 % early
// where half the width is 2.5 such lengths or more until gel, as in a usual bath that runs
// away; 0 to 3 % from 1.5 lengths on; in small trays that gel slowly up to 36 %. Walls that
// took heat from every depth, as if the tray were mixed sideways, made gel up to 13 % late;
// that is kept for a tray by which a resin is judged ([Tray].Slow), where late is safe.
//
// # A bath at a stand
//
// [Stand] is a bath whose drum stopped, from the one temperature that it had: the slab, or for whoever
// asks thousands of times its hottest place alone, by equations (7) to (10) of package vessel, whose
// lives are 0 to 1.9 % short of the slab's.
//
// # What is not here
//
// Convection in liquid resin (it would cool the middle and warm the top: a still
// pot of thin, warm resin is somewhat slower than computed), the heat of the cup
// itself, conduction along a tray or a wall, resin that flows, properties that
// change with temperature or cure, boiling and smoke, pouring into a still pot.
//
// # Errors
//
// A body or a state that cannot be computed with is refused by a [*BodyError], a
// run that stops by a [*RunError]; both say what to do.
//
// # Sources
//
// Frank-Kamenetskii's theory and P. H. Thomas's convective wall check the bodies,
// Çengel's table the conduction, testdata/reference/still.py and tray.py the whole: each
// stands beside its test. Methods: P. Kaps, P. Rentrop, Numer. Math. 33 (1979) 55-68
// (GRK4T); G. Steinebach, preprint 1741, TH Darmstadt 1995 (RODASP) and BIT 63
// (2023) 27 (RODAS5P); B. P. Sommeijer, L. F. Shampine, J. G. Verwer, J. Comput.
// Appl. Math. 88 (1998) 315-326 (RKC2; formulae from memory).
package still
