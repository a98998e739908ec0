// Package ensemble turns what is not known of a bath into numbers: members
// drawn from the spreads of rate, viscosity and heat loss, weighed by readings,
// and quantiles over them.
//
// A spread f is a factor: the value is log-normal with 90 % of it between 1/f
// and f, so that the standard deviation of its logarithm is
//
//	σ = ln f / 1.645                                                   (1)
//
// (1.645 is the 95 % quantile of the standard normal distribution). Members are
// drawn evenly, see below, and are the same for the same seed. How warm resin is
// when it is mixed is unknown by so many kelvins, and no factor: its u is that over
// their standard deviation.
//
// # Readings
//
// In the standardised logarithms of the factors y that are not certain,
//
//	u_j = ln y_j / σ_j                                                 (2)
//
// the prior p is the standard normal distribution. Readings have a likelihood
// ℓ(u), which costs a simulation for each member; so all members of all R
// rounds count, by adaptive multiple importance sampling [2]. With as many drawn
// from q_0 = p, q_1, ... their weights are
//
//	w = ℓ(u)·p(u)/q(u)                                                 (3)
//	q = (q_0 + q_1 + ... + q_{R−1})/R                                  (4)
//
// so that p/q ≤ R and no member far out can outweigh the rest by its rarity.
// Equal members that would tell as much number [3]
//
//	N = (Σw)²/Σw²                                                      (5)
//
// Rounds end when N is a third of a round, after six at the latest. The next is
// drawn around the cloud of the tempered posterior
//
//	p·ℓ^β,  the greatest β ≤ 1 with enough effective members           (6)
//
// from a Student t distribution, the moments of which follow from a quadratic
// fitted to ln ℓ over that cloud (mean m, covariance L·Lᵀ) by least squares,
//
//	ln ℓ ≈ c + bᵀx − ½xᵀBx,  B ≥ 0,  u = m + L·x                         (7)
//
// as far as it fits, and are otherwise those of the cloud, widened. Where ln ℓ
// is a quadratic two rounds suffice however sharp the readings.
//
// A posterior of several separate parts is found only as far as the first round
// meets them.
//
// # Figures that stand
//
// A crew's figure must not depend on a seed. Some hundred members drawn at random, or by
// a Latin hypercube [1], tell a 10 % quantile to some percent of itself only. So members
// are points of a Korobov lattice [4] in the unit cube,
//
//	x_i = {i·(1, a, a², ...)/n + shift}                                (9)
//
// with the a that spreads them most evenly, moved, mirrored and turned by the seed; each
// coordinate has one member in each of n equal strata. And a quantile is taken over what
// lies between the members too: a spline through the values v_i at the members' points
// u_i (in the frame of the distribution that they were drawn from) [5],
//
//	s(u) = quadratic + Σ c_i·|u − u_i|³,   s(u_i) = tanh((v_i − v)/w)  (10)
//
// is asked at 4093 more points of the same distribution, v being the quantile of the
// members alone and w some times the distance to those beside it, so that infinities and
// jumps are steps of one. The answer is
//
//	v + w·artanh(quantile of s)                                       (11)
//
// and never farther than five percentiles from that of the members alone. With readings
// the members are those of the last round, if it found the whole posterior, and a spline
// of the logarithm of (3) weighs the points. A test draws other seeds and more members.
//
// # The worst member
//
// With the mean m and the covariance S of ln y, and the gradient g of how much worse the
// answer to a question gets, the worst of all members z standard deviations out is
//
//	ln y = m + z·S·g/√(gᵀSg)                                           (8)
//
// Where the answer is monotone along g and its contours are planes, as many members are
// worse as lie beyond z of a standard normal distribution: one in a hundred beyond 2.326.
// Each question has a g of its own: thickness shortens a life and warms nothing, and loss
// counts as much as rate where heat leaves at the surface, less where it is held inside.
// So g is a regression over a few members beside the worst that is supposed, and belongs
// to the place where it is taken (the design point of first-order reliability methods [6]).
//
// Sources: [1] M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21
// (1979) 239-245 (from memory). [2] J.-M. Cornuet, J.-M. Marin, A. Mira, C. P.
// Robert, Scandinavian Journal of Statistics 39 (2012) 798-812 (from memory).
// [3] A. Kong, technical report 348, Department of Statistics, University of
// Chicago, 1992 (from memory). [4] N. M. Korobov, Doklady AN SSSR 124 (1959) 1207-1210
// (from memory); P₂ chooses a: I. H. Sloan, S. Joe, Lattice Methods for Multiple
// Integration, 1994 (from memory). [5] J. Duchon, RAIRO Analyse numérique 10 (1976) 5-12
// (from memory). [6] A. M. Hasofer, N. C. Lind, Journal of the Engineering Mechanics
// Division ASCE 100 (1974) 111-121 (from memory).
package ensemble
