// Package leastsquares minimises a sum of squares by the method of Levenberg and
// Marquardt and says what the minimum is worth.
//
// # Method
//
// With residuals r(x), their Jacobian J and a diagonal scaling D, a step p solves
//
//	(JᵀJ + μ·D²)·p = −Jᵀr                                              (1)
//
// as the linear least-squares problem of J above √μ·D, by Householder QR, so
// that JᵀJ is never formed. D holds the largest column norms of J seen so far [1],
// which makes the steps independent of the units of x. Along the step the second
// derivative of r is measured, and half of the acceleration it asks for is added;
// where it is not small beside the step, the step is too long [2]:
//
//	(JᵀJ + μ·D²)·a = −Jᵀ·r″(p),  x ← x + p + a/2  if 2·|D·a| ≤ ¾·|D·p|   (2)
//
// μ follows the gain, the real reduction of ½|r|² over the one that the linear
// model promises [3]:
//
//	gain > 0: μ ← μ·max(1/3, 1 − (2·gain − 1)³), ν ← 2;  else μ ← μ·ν, ν ← 2ν  (3)
//
// Damped evenly, D is 1 in units of the scales. Derivatives are central differences,
// or for some steps in a row Broyden's update of them,
//
//	J ← J + (Δr − J·p)·pᵀ/(pᵀp)                                        (5)
//
// for residuals that cost; a step that meets residuals that are not
// finite, or an error, is taken for too long.
//
// The iteration ends when the residuals are perpendicular to every column of J,
// when the reductions, real and promised, or the step no longer count, or after
// a number of iterations, which [Result.Converged] tells.
//
// # Worth
//
// Where the residuals have been divided by their standard deviations, the
// covariance of x is
//
//	C = (JᵀJ)⁻¹ = V·S⁻²·Vᵀ,  J·diag(scale) = U·S·Vᵀ                     (4)
//
// Singular values below [RankTolerance] of the largest are directions that the
// residuals do not tell; they are left out of C and counted by [Result.Rank].
//
// What is not here: bounds, robust losses, sparse problems.
//
// Sources (from memory): [1] J. J. Moré, Lecture Notes in Mathematics 630 (1978)
// 105-116. [2] M. K. Transtrum, J. P. Sethna, arXiv:1201.5885 (2012). [3] H. B.
// Nielsen, IMM-REP-1999-05, Technical University of Denmark (1999). (5) is C. G.
// Broyden's, Math. Comp. 19 (1965) 577-593.
package leastsquares
