package scales

import (
	"potlife/kinetics/quantity"
	"potlife/schedule/session"
)

// leftOver adds up what baths were dumped with, (3) of the package comment.
func (d *day) leftOver(active []session.Event) {
	rests := []*float64{} // of the baths that ended, nil where nobody weighed it
	var last *float64
	filled, inHand := false, false
	for _, e := range active {
		switch e.Kind {
		case session.Poured:
			filled, last = true, nil
		case session.Begin, session.Done:
			inHand, last = e.Kind == session.Begin, nil
		case session.Resume:
			if inHand {
				last = nil
			}
		case session.LeftOver:
			if filled {
				last = e.Grams
			} else if n := len(rests); n > 0 {
				rests[n-1] = e.Grams // weighed after it was dumped
			}
		case session.Changed:
			rests = append(rests, last)
			filled, last = false, nil
		case session.Spread, session.ThrownOut, session.Cured:
			if e.Bath {
				rests = append(rests, last)
				filled, last = false, nil
			}
		}
	}
	if filled {
		rests = append(rests, last)
	}
	for _, rest := range rests {
		if rest == nil {
			d.unknown++
			continue
		}
		d.left.Mass += quantity.Mass(*rest * gram)
		d.left.readings++
	}
}
