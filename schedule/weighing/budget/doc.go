// Package budget carries the uncertainty of readings through a formula, once to
// first order and once by drawing.
//
// Symbols: x_i a reading with the standard uncertainty u_i, y = f(x_1 … x_n).
// Readings are independent of each other.
//
//	u_i(y) = ½·(f(…, x_i + u_i, …) − f(…, x_i − u_i, …))                (1)
//	u(y)²  = Σ u_i(y)²                                                  (2)
//	u(y)   = deviation of f over draws of the x_i                       (3)
//
// (1) is the sensitivity coefficient times u_i, as a central difference with
// the step u_i; exact for a formula of the second degree. (1) and (2) leave out
// what is curved between two readings, (3) does not: compare them.
//
// Sources: (1) JCGM 100:2008, 5.1.3 note 2; (2) the same, eq. (10), which
// asks for independent readings; (3) JCGM 101:2008, clause 7. All three from
// memory; the tests check them against worked examples.
package budget
