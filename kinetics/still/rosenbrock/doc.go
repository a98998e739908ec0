// Package rosenbrock integrates large stiff systems dy/dt = f(t, y) whose
// Jacobian J = ∂f/∂y has a structure that makes linear systems with it cheap.
//
// # Method
//
// A Rosenbrock method takes one Newton step a stage, so that its work is known
// beforehand and one factorisation of a matrix serves a whole step h [1, IV.7]:
//
//	g·I − J,  g = 1/(γ·h)                                              (1)
//	(g·I − J)·u_k = f(t + c_k·h, y + Σ_j a_kj·u_j)
//	                + (1/h)·Σ_j C_kj·u_j + γ_k·h·∂f/∂t                 (2)
//	y(t + h) = y + Σ_j b_j·u_j                                         (3)
//	error    ≈ Σ_j e_j·u_j                                             (4)
//	y(t + xh): the cubic with the states and slopes of both ends       (5)
//
// The coefficients are those of GRK4T [2]. J must be exact up to the rounding of
// finite differences. The error of a step is judged in the worst component: the
// hottest cell of a thousand counts as much as it would alone.
//
// It was chosen by measurement, see package still.
//
// What is not here: mass matrices, event location (package ode has the root
// finder), sparse algebra. The method is not L-stable: what is far too fast for
// the step shrinks by 0.45 a step only, which the step control follows; and a stiff
// component driven by a curved function of time costs steps (order reduction [1,
// IV.15]), one driven by a straight line does not.
//
// Sources:
//
//	[1] E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 2nd ed.,
//	    Springer 1996.
//	[2] P. Kaps, P. Rentrop, Numer. Math. 33 (1979) 55-68.
//
// The coefficients were taken from an open implementation of [2], not from the
// paper; the tests prove the orders of (3) and (5).
package rosenbrock
