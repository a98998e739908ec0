package batches

// A ladder chooses the distances of the sure bath, in standard deviations, that
// are tried in turn. It starts at the 90 % quantile along the worst direction,
// goes up while the ensemble objects and down where there is no plan, and halves
// what lies between.
type ladder struct {
	z         float64
	low, high float64 // ensemble objects at low; no plan at high; 0: not known
	tries     int
}

// The rungs, and how many are tried: each is a whole search.
const (
	lowestRung  = 0.8
	firstRung   = 1.2815515655446004
	rung        = 0.4
	highestRung = 2.6
	mostTries   = 6
)

// newLadder starts one rung higher in a long winding, each of whose many pours
// is one more occasion to break the plan.
func newLadder(t *Task) *ladder {
	l := &ladder{z: firstRung}
	if len(t.Units) > mediumUnits {
		l.z += rung
	}
	if s := t.Spread; t.Known == nil && s.Time <= 1 && s.Viscosity <= 1 && s.Loss <= 1 && s.Mixed <= 0 {
		l.tries = mostTries // nothing is uncertain: every rung is the same bath
	}
	return l
}

// up tells whether there is a worse bath to try, and moves there.
func (l *ladder) up() bool {
	l.low = l.z
	if l.high > 0 {
		return l.halve()
	}
	l.z += rung
	return l.z <= highestRung && l.try()
}

// down tells whether there is a better bath to try, and moves there.
func (l *ladder) down() bool {
	l.high = l.z
	if l.low > 0 {
		return l.halve()
	}
	switch {
	case l.z > firstRung:
		l.z = firstRung
	case l.z > lowestRung:
		l.z = lowestRung
	default:
		return false
	}
	return l.try()
}

func (l *ladder) halve() bool {
	l.z = (l.low + l.high) / 2
	return l.high-l.low > rung/4 && l.try()
}

func (l *ladder) try() bool {
	l.tries++
	return l.tries < mostTries
}
