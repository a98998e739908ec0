// Package kinetics describes what one mixed resin does by itself: how fast it
// cures at a conversion and a temperature, when it turns to glass and how thick
// it is. It knows elapsed seconds and kelvin, no clock, no vessel and no file.
//
// Symbols: α degree of cure (0 fresh, 1 fully reacted), T temperature in K,
// φ the growth integral of the dual-Arrhenius viscosity law (dimensionless),
// R = 8.314462618 J/(mol·K) (CODATA 2018, exact), Tg glass temperature in K,
// η viscosity in Pa·s.
//
// Cure rate, one of
//
//	dα/dt = (k1 + k2·α^m)·(1 − α)^n                                   (1) [1]
//	dα/dt = k·(1 − α)^n                                               (2)
//	dα/dt = (k1 + k2·α)(1 − α)(B − α) to α_s, k3·(1 − α) above        (3) [2]
//	ki = Ai·exp(−Ei/(R·T))                                            (4)
//
// times the vitrification factor, where a system has one,
//
//	f = 1/(1 + exp(C·(α − α_v(T))))                                   (5) [3]
//	α_v from Tg(α_v) = T + shift, or α_v = a0 + aT·T                  (6)
//
// Glass temperature
//
//	Tg(α) = Tg0 + (Tg1 − Tg0)·λα/(1 − (1 − λ)α)                       (7) [4]
//
// Viscosity, one of
//
//	ln η = ln η_ref + (E/R)(1/T − 1/T_ref) + (a + bα)·ln(α_gel/(α_gel − α))   (8) [5]
//	ln η = ln η_ref + (E/R)(1/T − 1/T_ref) + φ,  dφ/dt = k_g·exp(−E_g/(R·T))  (9)
//
// A conversion below 0 or above 1, which a trial step of an integrator can
// produce, is treated as 0 or 1. What is not modelled: moisture, amine blush,
// loss of solvent or diluent, fillers settling.
//
// Sources:
//
//	[1] S. Sourour, M. R. Kamal, Thermochim. Acta 14 (1976) 41-59.
//	[2] W. I. Lee, A. C. Loos, G. S. Springer, J. Compos. Mater. 16 (1982) 510-520.
//	[3] A. A. Johnston, PhD thesis, University of British Columbia, 1997 (linear
//	    form; from memory).
//	[4] DiBenedetto's equation in the form of J. P. Pascault, R. J. J. Williams,
//	    J. Polym. Sci. B 28 (1990) 85-95 (from memory).
//	[5] J. M. Castro, C. W. Macosko, AIChE J. 28 (1982) 250-260 (from memory).
package kinetics
