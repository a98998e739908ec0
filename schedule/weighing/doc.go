// Package weighing tells from scales what a part was made of: fibre and resin,
// voids, resin lost, and how far it is off its target, each with its doubt.
//
// Symbols: M a mass, w a fibre fraction by mass, V one by volume, ρ_f and ρ_m
// the densities of fibre and cured resin, D that of the piece, t the target by
// mass, u a standard uncertainty.
//
//	part alone           P = part − mandrel                             (1)
//	laminate laid        L = P + trimmings; if not weighed, F/w         (2)
//	fibre by tow         F = tows·length·tex                            (3)
//	fibre by spool       F = before − after                             (4)
//	fibre by all         F = Σ F_i/(u_i² + τ²) / Σ 1/(u_i² + τ²)        (5)
//	excess scatter       τ² = (Σ p_ij·(F_i − F_j)² − (n − 1)·Σ 1/u_i²)  (6)
//	                     / (2·Σ p_ij), p_ij = 1/(u_i²·u_j²) over pairs,
//	                     not below 0
//	unaccounted          mixed − (1 − w)·L − left over − cups − rags − drips (7)
//	pick-up              (1 − w)/w over (1 − t)/t                       (8)
//	surplus resin        (1 − w)·L − w·L·(1 − t)/t                      (9)
//	density, no voids    T = 1/(w/ρ_f + (1 − w)/ρ_m)                    (10)
//	voids                V_v = (T − D)/T                                (11)
//	the same             V_f = w·D/ρ_f, V_m = (1 − w)·D/ρ_m,            (12)
//	                     V_v = 1 − V_f − V_m
//	hung in water        D = ρ_w·air/(air − water)                      (13)
//	water, c in °C       ρ_w = a5·(1 − (c + a1)²(c + a2)/(a3(c + a4)))  (14)
//	wall of N plies      V_f = N·areal weight/(ρ_f·h)                   (15)
//	coupon               w = residue/coupon                             (16)
//	wall, by mass        w = V_f·ρ_f/D; if D is not known, V_m = 1 − V_f (17)
//	wall off the target  h_f·(1/V_f − 1/V_t), h_f = N·areal weight/ρ_f  (18)
//	                     or, if that is not known, h·V_f
//
// w is F/L if the part was weighed and its fibre is known, else the coupon's,
// else the wall's. τ is 0 unless two estimates of the fibre disagree beyond
// k = 2. V in (18) leaves voids out. Negative voids are told as they are.
//
// # Doubt
//
// Uncertainties are first order, of independent readings, and are drawn again to
// see whether that is enough; see package budget. A scale's step s is u = s/√12
// for each reading, so a difference has √2 of it; that all readings of one scale
// share its calibration is left out. Two routes disagree where they differ by
// more than twice the uncertainty of the difference, and a result that cannot be
// negative does if it is below zero by twice its own.
//
// # What would explain a disagreement
//
// Let y be the differences between routes, S their covariance and g_i what one
// u_i of input i adds to them. If input i alone is off, it is off by
//
//	z_i = −g_iᵀS⁻¹y / g_iᵀS⁻¹g_i                                        (19)
//
// of its own u_i, and yᵀS⁻¹y − (g_iᵀS⁻¹y)²/(g_iᵀS⁻¹g_i) is left over. An input
// explains the disagreement if what is left is chance (χ², 95.45 %) and nothing
// that cannot be negative becomes so. Of those the one with the smallest z_i
// explains it best. Two routes alone can be reconciled by any of their inputs,
// best by the least certain one; it takes a third to tell a misread scale.
//
// # Inputs
//
// Errors, shares and suspects name inputs like this: part, mandrel, trimmings,
// fibre, tow, tex, tows, spool before, spool after, mixed, left over, cups,
// rags, drips, fibre density, resin density, target, band, volume, thickness,
// areal weight, plies, air, water, water temperature, coupon, residue, scale,
// balance, tolerance.
//
// # What is not here
//
// Buoyancy in air (0.05 % of the density); sizing, fillers, and fibre lost in the
// oven; resin that shrinks or gives off mass in cure; trimmings of another
// composition; dry ends of tow. Nothing is said about strength.
//
// # Sources
//
// (10), (11): ASTM D2734, formula seen. (12): ASTM D3171 method I, layout from
// memory. (15): D3171 method II, seen. (16): D3171 method I, ISO 1172, memory.
// (13): ASTM D792, ISO 1183, memory. (14): M. Tanaka et al., Metrologia 38
// (2001) 301, constants seen where others quote the paper. (5): the usual mean
// by inverse variance. (6): R. DerSimonian and N. Laird, Controlled Clinical
// Trials 7 (1986) 177, memory, its sums written over pairs (derived), which
// loses no digits where one estimate is far better than another. (19): generalised least squares with one unknown,
// as used to find blunders in surveys (W. Baarda, 1968, memory). The others
// follow from the words (derived).
package weighing
