package weighing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// A Suspect is one input that, changed alone, would reconcile all routes.
type Suspect struct {
	Input  string
	Change float64 // to be added to the input, in SI
	InU    float64 // the same in units of its standard uncertainty, not negative
	amount string  // the change as a person writes it, without its sign
}

// String names the input and how far it would be off.
func (s Suspect) String() string {
	way := "high"
	if s.Change > 0 {
		way = "low"
	}
	times := fmt.Sprintf("%.3g", s.InU)
	if s.InU >= 1000 {
		times = "over 1000"
	}
	return fmt.Sprintf("%s, %s too %s (%s times its own uncertainty)", s.Input, s.amount, way, times)
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
			found = append(found, Suspect{Input: k.String(), Change: change, InU: math.Abs(steps), amount: k.amount(math.Abs(change))})
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

// blame says which input would explain the disagreements.
func (r *Result) blame() string {
	if len(r.Suspects) == 0 {
		return "no single input explains this: weigh again, one after another"
	}
	best := []string{}
	for _, s := range r.Suspects {
		if s.InU <= r.Suspects[0].InU*(1+tied) {
			best = append(best, s.String())
		}
	}
	sentence := "one wrong input would explain this, best of all " + strings.Join(best, ", or ")
	if len(r.Suspects) > len(best) {
		sentence += "; others could: a third route would tell"
	}
	return sentence
}

// amount writes a change of an input for a person.
func (k key) amount(si float64) string {
	switch k {
	case tow:
		return fmt.Sprintf("%.4g m", si)
	case tex:
		return fmt.Sprintf("%.3g tex", si*1e6)
	case fibreDensity, resinDensity:
		return density(si)
	case volume:
		return fmt.Sprintf("%.4g mL", si*1e6)
	case arealWeight:
		return fmt.Sprintf("%.4g g/m²", si*1e3)
	case thickness:
		return fmt.Sprintf("%.3g mm", si*1000)
	case waterTemperature:
		return fmt.Sprintf("%.3g K", si)
	}
	return grams(si)
}
