package ode

// The Dormand-Prince pair as a value: nodes c, stage weights a, the fifth-order
// weights (last row of a) and e, the difference to the fourth-order ones.
// [1], table 2; [2], table II.5.2.
const (
	c2, c3, c4, c5 = 1. / 5, 3. / 10, 4. / 5, 8. / 9

	a21                          = 1. / 5
	a31, a32                     = 3. / 40, 9. / 40
	a41, a42, a43                = 44. / 45, -56. / 15, 32. / 9
	a51, a52, a53, a54           = 19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729
	a61, a62, a63, a64, a65      = 9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656
	a71, a73, a74, a75, a76      = 35. / 384, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84
	e1, e3, e4, e5, e6, e7       = 71. / 57600, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40
	d1, d3, d4                   = -12715105075. / 11282082432, 87487479700. / 32700410799, -10690763975. / 1880347072
	d5, d6, d7                   = 701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423
	safety, smallest, largest    = 0.9, 0.2, 10.0
	integralGain                 = 0.04
	proportionalGain             = 0.2 - 0.75*integralGain
	roundoff                     = 2.3e-16
	errorFloorOfPreviousAccepted = 1e-4
)
