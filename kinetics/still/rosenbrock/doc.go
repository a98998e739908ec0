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
//	y(t + h) = y + Σ_j a_sj·u_j + u_s                                  (3)
//	error    ≈ u_s                                                     (4)
//	y(t + xh) = (1 − x)·y(t) + x·(y(t + h) + (1 − x)·(d1 + x·d2 + ...)),
//	            d_r = Σ_k H_rk·u_k                                     (5)
//
// J must be exact up to the rounding of finite differences. The error of a step
// is judged in the worst component: the hottest cell of a thousand counts as
// much as it would alone.
//
// # Choice
//
// [RODASP] and [RODAS5P] were measured against each other, see package still.
//
// What is not here: mass matrices, event location (package ode has the root
// finder), sparse algebra.
//
// Sources:
//
//	[1] E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 2nd ed.,
//	    Springer 1996.
//	[2] G. Steinebach, Order-reduction of ROW-methods for DAEs and method of lines
//	    applications, preprint 1741, TH Darmstadt 1995.
//	[3] G. Steinebach, Construction of Rosenbrock-Wanner method Rodas5P and
//	    numerical benchmarks, BIT Numer. Math. 63 (2023) 27.
//
// The coefficients were taken from open implementations of [2] and [3], not from
// the papers; the tests prove the order of the step and of (5).
package rosenbrock
