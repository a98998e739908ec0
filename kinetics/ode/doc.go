// Package ode integrates small systems of ordinary differential equations
// dy/dt = f(t, y) and finds the moments at which something happens on the way.
//
// The method is the embedded Runge-Kutta pair of Dormand and Prince, order 5
// with an error estimate of order 4 [1], a proportional-integral step control
// [2, IV.2] and the continuous extension of order 4 that costs no further
// evaluation of f [2, II.6]. The last stage of an accepted step is the first of
// the next, so a step costs six evaluations.
//
// A right-hand side must be smooth between the points at which the caller
// restarts the solver with [Solver.Start]: a kink inside a step costs rejected
// steps and accuracy.
//
// What is not here: stiff methods, mass matrices, delays.
//
// Errors: a step budget that runs out, a step that shrinks to nothing and a
// right-hand side that is not finite are reported as an [*Error] that names the
// time and the state. The solver never returns a NaN as an answer.
//
// Sources:
//
//	[1] J. R. Dormand, P. J. Prince, J. Comput. Appl. Math. 6 (1980) 19-26.
//	[2] E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential
//	    Equations I, 2nd ed., Springer 1993 (II) and E. Hairer, G. Wanner,
//	    Solving Ordinary Differential Equations II, 2nd ed., 1996 (IV).
//	[3] R. P. Brent, Algorithms for Minimization Without Derivatives, 1973, ch. 4.
package ode
