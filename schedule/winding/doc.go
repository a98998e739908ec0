// Package winding turns layers on a cylinder into circuits or turns, metres of
// tow, grams of fibre and resin, and minutes.
//
// Symbols: D mandrel diameter with the layers below, L wound length, b band
// width, α winding angle from the axis, v tow speed, n tows in the band.
//
//	circuits of a closed ±α layer  N = ceil(πD·cosα/b)                  (1)
//	path of one circuit            2L/cosα                              (2)
//	turns of a hoop layer          L/b                                  (3)
//	path of a turn                 √((πD)² + b²)                        (4)
//	spindle                        v·sinα/(πD), at most its greatest    (5)
//	ply thickness                  n·(tex/ρ_f)/(b·V_f)                  (6)
//	resin carried                  fibre·(1 − w_f)/w_f·pick-up          (7)
//
// A circuit is out and back, so each has two turn-rounds; a turn-round adds its
// angle at the spindle speed in force. A hoop layer is one ply, a helical layer
// two. Every tow of the band runs the path. A measured time or length replaces
// the computed one; a measured length is taken to include the ends.
//
// Angles, circuits and turns are those of a plain cylinder: domes, tapers and
// friction are not modelled; their fibre belongs under ends.
//
// Sources: (1) to (4) follow from unrolling the cylinder (derived); (6) from
// the area of a tow, tex/ρ.
package winding
