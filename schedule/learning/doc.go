// Package learning turns finished sessions into lessons for the next plan: pick-up, the
// time that layers really take, the reactivity of the hardener, what stays in cups.
//
// # What a session says
//
// Of every session each figure is a logarithm y with a standard deviation u, or nothing:
//
//	pick-up      y = ln Σ carried/Σ due                                           (1)
//
// over the stretches between two moments at which the mass in the bath is known: empty at
// a fill, weighed as left-over. Carried is what was in it and came in, less what was left;
// due is the resin of the layers wound in it at a pick-up of 1. Where the part itself was
// weighed and says it with less uncertainty, or refutes the balance, that takes its place.
//
//	minutes      y = ln Σ run/Σ planned                                           (2)
//
// over the layers that were done, pauses left out, planned without any lesson.
//
//	reactivity   1/u² = 1/s² − 1/σ²,   y = u²·(m/s² − m0/σ²)                       (3)
//
// with m and s mean and standard deviation of ln rate over the replayed ensemble, and m0
// and σ those it was drawn with: what the readings alone say. A session without readings
// says nothing, nor one whose readings say less than the record.
//
//	in cups      y = ln(left in cups/mixed)                                       (4)
//
// where cups were weighed.
//
// # From sessions to a lesson
//
// A session that is age days older than the newest counts w = 2^(−age/120). With a prior
// y0 ± σ0 and a scatter τ from session to session, known beforehand as τ0 with the weight
// of three sessions,
//
//	h_i = min(1, 1.5/|y_i − μ|·√(u_i² + τ²))                                       (5)
//	μ   = (y0/σ0² + Σ w·h·y/(u² + τ²))/P,   P = 1/σ0² + Σ w·h/(u² + τ²)            (6)
//	τ²  = max(0, 3·τ0² + Σ w·(h²·(y − μ)²/(0.778·(1 − p)) − u²))/ν,  ν = 3 + Σ w   (7)
//
// repeated until μ rests, from the weighted median. (5) is Huber's weight [1]: a session
// beyond 1.5 standard deviations pulls no harder than one at 1.5, so that one odd session
// cannot swing the lesson. The spread told is that of the next session,
//
//	f = exp(t·√(τ² + 1/P))                                                        (8)
//
// p is the part that a session has in μ, 0.778 the mean square that Huber's weight leaves of
// a standard normal, and t the 95 % quantile of Student's distribution with ν degrees of
// freedom.
//
// σ0, τ0 and 120 days are our choice and stand in [figures].
//
// Source: [1] P. J. Huber, Ann. Math. Statist. 35 (1964) 73-101 (from memory).
package learning
