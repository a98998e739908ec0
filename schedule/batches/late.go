package batches

import (
	"math"
	"slices"

	"potlife/kinetics/quantity"
)

// Late is how much later than planned each pour of a plan may come, its mixing and all that
// follows being as much later, nothing else being late: the plan then still keeps its limits
// and the reserve on the bath that it was made for. One delay uses up what the others had.
//
// A top-up that comes late finds the bath standing without tow. Its working life runs down
// second by second, and so, at most, do the lives of the baths that it is the heel of, until
// the next change: the delay is the least that any of them has beyond the reserve. A change
// needs only the old bath to last; the new one is mixed as late as it is poured. Beyond the
// planned end of the layer that the pour is for, no delay is given: that is another day,
// with a gelling layer below, and wants another plan.
//
// That reckons without the room, which may warm meanwhile. The referee looks at every delay,
// and what he does not confirm is halved until he does.
//
// A pour from cups that stand mixed already is given none: they age faster than a bath.
// Delays are whole minutes, rounded down.
func Late(t *Task, plan *Plan, tally *Tally) ([]quantity.Time, error) {
	late := make([]quantity.Time, len(plan.Pours))
	for i := range plan.Pours {
		pots := plan.Pours[i].Pots
		if toBeMixed(pots) < len(pots) || len(pots) == 0 {
			continue
		}
		for d := wholeMinutes(delay(t, plan, tally, i) - slackTime); d > 0; d = wholeMinutes(d / 2) {
			seen, err := refereed(t, plan.delayed(i, d), false)
			if err != nil {
				return nil, err
			}
			if len(seen.Broken) <= len(tally.Broken) && !seen.shorterThan(tally) { // a plan in force may be a little off already
				late[i] = d
				break
			}
		}
	}
	return late, nil
}

// shorterThan tells that a bath now lacks some of its reserve, be it less than the referee minds.
func (y *Tally) shorterThan(planned *Tally) bool {
	for i := range y.Pours {
		if spare := y.Pours[i].spare(); spare < 0 && spare < planned.Pours[i].spare() {
			return true
		}
	}
	return false
}

// delay is that of pour i, the room left out.
func delay(t *Task, plan *Plan, tally *Tally, i int) quantity.Time {
	d := plan.End[lastOfLayer(t.Units, plan.Pours[i].Stop)] - plan.Pours[i].At
	if i > 0 {
		d = min(d, tally.Pours[i-1].spare())
	}
	for j := i; j < len(plan.Pours) && !fresh(plan.Pours[j].Into); j++ {
		d = min(d, tally.Pours[j].spare())
	}
	return d
}

func wholeMinutes(d quantity.Time) quantity.Time {
	return quantity.Time(math.Floor(float64(d)/60) * 60)
}

// spare is the least of life that the bath had beyond the reserve.
func (p *PourTally) spare() quantity.Time { return p.Least - p.Reserve }

// fresh tells whether a pour goes into a clean bath.
func fresh(into Into) bool { return into == Fill || into == Change }

// lastOfLayer is the last unit of the layer that unit u belongs to.
func lastOfLayer(units []Unit, u int) int {
	for u+1 < len(units) && units[u+1].Layer == units[u].Layer {
		u++
	}
	return u
}

// delayed is the plan with pour i and all that follows d later.
func (p *Plan) delayed(i int, d quantity.Time) *Plan {
	q := *p
	q.Pours, q.Start, q.End = slices.Clone(p.Pours), slices.Clone(p.Start), slices.Clone(p.End)
	for j := i; j < len(q.Pours); j++ {
		q.Pours[j] = q.Pours[j].later(d)
	}
	for u := q.Pours[i].Stop; u < len(q.Start); u++ {
		q.Start[u], q.End[u] = q.Start[u]+d, q.End[u]+d
	}
	return &q
}
