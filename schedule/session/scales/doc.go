// Package scales puts what a session knows beside what was weighed of its part,
// for package weighing, and tells what the tow really carried.
//
// # What a session knows
//
//	tow            Σ path of the layers done, as the job winds them        (1)
//	mixed          Σ pots mixed, poured or not                             (2)
//	left over      Σ over baths of what was weighed of them last, after
//	               the last pour and with no tow run since                 (3)
//	cups           Σ pots that stand mixed                                 (4)
//	areal weight   Σ fibre without ends / Σ plies·π·D·L                    (5)
//	plies          Σ 1 for a hoop, 2 for a helical layer                   (6)
//
// The target, the tex and the fibre's density are the job's; the resin's density
// is that of the liquid mix, since records have no other. A cured epoxy is some 2
// to 5 % denser (common practice, memory), so that it is given ±5 %.
//
// A layer that was given up counts with the share that package replay reckons: its tow and its
// resin, and its fibre in the areal weight; it makes no ply.
//
// Whatever was weighed and logged replaces that, field by field, and whatever is
// said now replaces both. A mass of fibre or spools that were weighed stand beside
// the tow: they check each other.
//
// # What the tow carried
//
//	carried off the bath, over the target's resin for each gram of fibre:
//	  if the part was weighed   pick-up/(1 − bleed), or pick-up with the
//	                            rags' resin where that was weighed         (7)
//	  else                      (mixed − left over − cups − drips)/fibre
//	                            · t/(1 − t)                                (8)
//
// t is the target by mass. Pots that were poured left the job's share in their
// cups, known to itself (our choice), where cups were not weighed. The bleed too
// is only known to half of itself (our choice). (7) and (8) are derived from the
// words; uncertainties are first order, as in package weighing.
//
// Where the resin unaccounted for is less than none beyond its expanded uncertainty, the
// balance is refuted: a part that was weighed outranks it.
package scales
