// Package fit makes a record of one's own resin from what is known of it: pot
// lives, viscosities, gel times of films, conversions and glass temperatures
// after a cure, and logs of cups with a thermometer in them.
//
// # Model
//
// The nearest built-in system is the prior. Around it move, in scaled form, each
// standard normal before the statements are heard,
//
//	ln k at the pivot     σ = ln(spread of time)/1.645                 (1)
//	E of every rate       σ = 4 kJ/mol, at a fixed k(pivot)
//	ln η at its reference σ = ln(spread of viscosity)/1.645
//	flow energy           σ = 6 kJ/mol
//	ln loss of the cups   σ = ln 1.3/1.645, one for all vessels
//	ln heat of reaction   σ = 6 %
//	vitrification shift   σ = 5 K
//	cured glass temp.     σ = 10 K
//	first temperature     σ = 0.5 K, one for each log
//
// so that with E + ΔE and the pivot T_p, 23 °C where the system cures there,
//
//	k(T) = k_prior(T)·exp(x_k + (ΔE/R)·(1/T_p − 1/T))                    (2)
//
// and no rate can turn negative. The spreads of (1) are the record's; 4 kJ/mol
// hold the published activation energies of one chemistry apart (53 to 63 for
// aliphatic and cycloaliphatic amines), 6 kJ/mol those of flow seen for diluted
// resins (53 to 68); loss is as for any bath; heat and glass are common practice.
//
// Each statement is predicted by simulating that very test in its vessel, still
// unless it is said to be stirred ([resins.PotTest], on its coarse grid, which errs
// by 2 % of a life at most), and leaves a residual over its own σ:
//
//	pot life, film gel    ln(t/t_said), 9 in 10 within 10 %; 30 % where the
//	                      cup is assumed
//	viscosity             ln(η/η_said), 9 in 10 within 15 %
//	conversion            ln(α/(1−α)), σ of 0.02 in α
//	glass temperature     3 K
//	heat                  5 %
//	log                   distance of the reading from the curve where     (3)
//	                      0.5 K count as much as 1 % of the time and 5 s
//
// The curve of (3) is followed three σ of the time beyond the last reading: had it an
// end there, a runaway a little late would count by its height, and the sum of
// squares have a kink where searches end.
//
// In a still cup the thermometer is taken to hang where it is hottest: one that
// touches the wall makes the resin look slower than it is.
//
// The sum of squares of residuals and prior is made least by package
// leastsquares; the covariance there is that of the posterior, in linear
// approximation.
//
// What all others say of a statement is a fit of the others where there are up to 16
// statements, and where there are more a step from the fit of all ((4) of without.go), if
// the tests that it moves most are as far from the linear model as to move a figure by a
// third of a per cent at most; else a fit. Tests of the same resin in the same vessel are
// answered by one simulation. Work and memory go with the number of statements.
//
// # What comes out
//
// A record with its spreads from the posterior ([Result.Spread]), what each
// statement said and the record now says, how well the others predict it, what
// the statements cannot tell (posterior σ above 0.7 of the prior's), pairs
// that contradict each other, and statements that the record does not keep to
// ([Miss]): a time promised longer than said, beyond the 9 in 10 of the statement,
// or anything off by more than 2σ. An activation energy outside 30 to 120 kJ/mol is
// refused.
//
// [Calibrate] serves the datasheet mapping of a job: the same prediction on the finer
// grid, but the label is met exactly and only the rate and the level of the viscosity
// move.
//
// What is not here: the place of a thermometer in a still cup, the gel
// conversion and the exponents of the rate law (they stay the prior's), a
// different loss for each cup.
package fit
