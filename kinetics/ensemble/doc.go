// Package ensemble turns what is not known of a bath into numbers: members
// drawn from the spreads of rate, viscosity and heat loss, and quantiles over
// them.
//
// A spread f is a factor: the value is log-normal with 90 % of it between 1/f
// and f, so that the standard deviation of its logarithm is
//
//	σ = ln f / 1.645                                                   (1)
//
// (1.645 is the 95 % quantile of the standard normal distribution). Members are
// drawn by Latin hypercube sampling [1] and are the same for the same seed.
//
// Source: [1] M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21
// (1979) 239-245 (from memory).
package ensemble
