package weighing

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/warning"
)

// A Suspect is one input that, changed alone, would reconcile all routes.
type Suspect struct {
	Input  string
	Of     Dimension
	Change float64 // to be added to the input, in SI
	InU    float64 // the same in units of its standard uncertainty, not negative
}

// suspects lists the inputs that explain everything, the likeliest first: those
// for which (19) leaves no contradiction and which break nothing else. It asks
// the routes first and, if they leave nobody or agree, those results that are
// less than none as well.
func (m *model) suspects(list []condition, chained []bool) []Suspect {
	links, apart := []condition{}, false
	for i, c := range list {
		apart = apart || c.broken() && !c.oneSided()
		if chained[i] {
			links = append(links, c)
		}
	}
	if apart {
		if found := m.explain(links, list); len(found) > 0 {
			return found
		}
	}
	return m.explain(append(links, worst(list)...), list)
}

// worst picks the most broken of the results that are less than none, one of a
// kind: the other routes' follow from it and from what the routes differ by.
func worst(list []condition) []condition {
	picked := []condition{}
	for _, c := range list {
		if !c.oneSided() || !c.broken() {
			continue
		}
		at := slices.IndexFunc(picked, func(p condition) bool { return p.of == c.of })
		switch {
		case at < 0:
			picked = append(picked, c)
		case c.out.Value/c.out.U < picked[at].out.Value/picked[at].out.U:
			picked[at] = c
		}
	}
	return picked
}

// explain fits each input in turn to the links by (19).
func (m *model) explain(links, list []condition) []Suspect {
	covariance, ok := m.covariance(links)
	if !ok {
		return []Suspect{}
	}
	found := []Suspect{}
	for k := part; k < toldDoubt; k++ {
		if steps, ok := m.fit(k, links, covariance); ok && m.mends(k, steps, list) {
			change := steps * m.plain[k].U
			found = append(found, Suspect{Input: k.String(), Of: k.dimension(), Change: change, InU: math.Abs(steps)})
		}
	}
	slices.SortStableFunc(found, func(a, b Suspect) int {
		if math.Abs(a.InU-b.InU) <= tied*a.InU {
			return 0
		}
		return cmp.Compare(a.InU, b.InU)
	})
	return found
}

// tied is the relative difference below which two inputs explain as well.
const tied = 1e-6

// blame is which input would explain the disagreements.
func (r *Result) blame() warning.Warning {
	if len(r.Suspects) == 0 {
		return NoInputExplains{}
	}
	best := 0
	for best < len(r.Suspects) && r.Suspects[best].InU <= r.Suspects[0].InU*(1+tied) {
		best++
	}
	return OneInputExplains{Best: r.Suspects[:best], Others: len(r.Suspects) - best}
}
